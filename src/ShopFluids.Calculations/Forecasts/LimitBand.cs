namespace ShopFluids.Calculations.Forecasts;

/// <summary>What a quantity may be, in its unit; on a limit it is within.</summary>
/// <param name="Low">The lower limit, −10¹² to 10¹²; null where there is none.</param>
/// <param name="High">The upper limit, from the lower one to 10¹²; null where there is none.</param>
/// <exception cref="ArgumentException">A limit is out of range, the upper below the lower, or both are missing.</exception>
public sealed record LimitBand(double? Low, double? High)
{
    private const double Largest = 1e12;

    /// <summary>The lower limit; null where there is none.</summary>
    public double? Low { get; } = Low is { } low ? Require.Between(low, -Largest, Largest, "in any unit", nameof(Low)) : null;

    /// <summary>The upper limit; null where there is none.</summary>
    public double? High { get; } = High is { } high
        ? Require.Between(high, Low ?? -Largest, Largest, "in any unit (from the lower limit)", nameof(High))
        : Low is null ? throw new ArgumentException("Accepted are a lower limit, an upper limit or both.", nameof(High)) : null;

    /// <summary>Whether a value is beyond a limit.</summary>
    /// <param name="value">Any finite number.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="value"/> is not finite.</exception>
    public bool IsOut(double value) => Require.Finite(value) < Low || value > High;
}
