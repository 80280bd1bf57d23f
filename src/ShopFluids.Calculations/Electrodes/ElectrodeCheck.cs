using System.Runtime.InteropServices;

namespace ShopFluids.Calculations.Electrodes;

/// <summary>One buffer and what the electrode gave in it.</summary>
/// <param name="Ph">pH of the buffer at its temperature, 0 to 14.</param>
/// <param name="Millivolts">What the meter showed, −1000 to 1000 mV.</param>
[StructLayout(LayoutKind.Auto)]
public readonly record struct BufferReading(double Ph, double Millivolts);

/// <summary>What a healthy electrode shows. The defaults are those of an electrode maker's test (read); some ask for 95 to 105 % (from memory).</summary>
/// <param name="LowestSlopePercent">Lowest slope, % of theory, 0 to 200; 85.</param>
/// <param name="HighestSlopePercent">Highest slope, % of theory, from the lowest to 200; 105.</param>
/// <param name="LargestOffsetMillivolts">Largest offset at pH 7 to either side, 0 to 1000 mV; 30.</param>
public sealed record ElectrodeLimits(double LowestSlopePercent = 85, double HighestSlopePercent = 105, double LargestOffsetMillivolts = 30)
{
    /// <summary>Lowest slope, % of theory; a slope on the limit passes.</summary>
    public double LowestSlopePercent { get; } = Require.Between(LowestSlopePercent, 0, 200, "% of theory");

    /// <summary>Highest slope, % of theory; a slope on the limit passes.</summary>
    public double HighestSlopePercent { get; } = Require.Between(HighestSlopePercent, LowestSlopePercent, 200, "% of theory (the lowest at least)");

    /// <summary>Largest offset at pH 7 to either side, mV; an offset on the limit passes.</summary>
    public double LargestOffsetMillivolts { get; } = Require.Between(LargestOffsetMillivolts, 0, 1000, "mV");
}

/// <summary>The result of a two-point check.</summary>
/// <param name="SlopeMillivoltsPerPh">Fall of the voltage per pH; positive for an electrode that is not wired the wrong way round.</param>
/// <param name="SlopePercent">The same as a share of the Nernst slope, %.</param>
/// <param name="OffsetMillivolts">Voltage at pH 7, on the line through both points.</param>
/// <param name="IsSlopeAccepted">Whether the slope lies within the limits.</param>
/// <param name="IsOffsetAccepted">Whether the offset lies within the limits.</param>
public sealed record ElectrodeCheckResult(
    double SlopeMillivoltsPerPh,
    double SlopePercent,
    double OffsetMillivolts,
    bool IsSlopeAccepted,
    bool IsOffsetAccepted)
{
    /// <summary>Whether the electrode passes.</summary>
    public bool Passes => IsSlopeAccepted && IsOffsetAccepted;

    /// <summary>pH for a voltage on the line through both points.</summary>
    /// <param name="millivolts">−10 000 to 10 000 mV.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="millivolts"/> is out of its range.</exception>
    /// <exception cref="InvalidOperationException">The slope is 0: the electrode does not answer at all.</exception>
    public double PhAt(double millivolts)
    {
        Require.Between(millivolts, -10_000, 10_000, "mV");
        return Math.Abs(SlopeMillivoltsPerPh) >= ElectrodeCheck.LeastSlope
            ? ElectrodeCheck.NeutralPh + ((OffsetMillivolts - millivolts) / SlopeMillivoltsPerPh)
            : throw new InvalidOperationException("An electrode without a slope gives no pH.");
    }
}

/// <summary>Two-point check of a pH electrode: slope = (E₁ − E₂) / (pH₂ − pH₁), offset = E₁ − slope (7 − pH₁). Algebra of the Nernst line.</summary>
public static class ElectrodeCheck
{
    internal const double NeutralPh = 7;
    internal const double LeastSlope = 0.001;
    private const double LeastDistance = 1;

    // Differences of decimal buffer values end a last digit off; a slope on its limit stays on it.
    private const double Rounding = 1e-9;

    /// <summary>Slope and offset from two buffers, judged.</summary>
    /// <param name="first">One buffer.</param>
    /// <param name="second">The other buffer, 1 pH away at least.</param>
    /// <param name="celsius">Temperature of both, 0 to 100 °C.</param>
    /// <param name="limits">What is accepted.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range, or the buffers are too near each other.</exception>
    public static ElectrodeCheckResult TwoPoint(BufferReading first, BufferReading second, double celsius, ElectrodeLimits limits)
    {
        ArgumentNullException.ThrowIfNull(limits);
        Checked(first, nameof(first));
        Checked(second, nameof(second));
        var nernst = Nernst.SlopeMillivoltsPerPh(celsius);
        var distance = second.Ph - first.Ph;
        if (Math.Abs(distance) < LeastDistance)
        {
            throw new ArgumentOutOfRangeException(nameof(second), second.Ph, "Accepted is a buffer at least 1 pH from the first.");
        }

        var slope = (first.Millivolts - second.Millivolts) / distance;
        var percent = 100 * slope / nernst;
        var offset = first.Millivolts - (slope * (NeutralPh - first.Ph));
        return new(
            slope,
            percent,
            offset,
            percent >= limits.LowestSlopePercent - Rounding && percent <= limits.HighestSlopePercent + Rounding,
            Math.Abs(offset) <= limits.LargestOffsetMillivolts + Rounding);
    }

    private static void Checked(BufferReading reading, string name)
    {
        Require.Between(reading.Ph, 0, 14, "pH", name);
        Require.Between(reading.Millivolts, -1000, 1000, "mV", name);
    }
}
