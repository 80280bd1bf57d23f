namespace ShopFluids.Printing.Charts;

/// <summary>Round numbers along an axis.</summary>
public static class AxisTicks
{
    /// <param name="low">Where the axis begins.</param>
    /// <param name="high">Where it ends, above <paramref name="low"/>.</param>
    /// <param name="most">At most about so many.</param>
    /// <returns>The values, each with the decimals that tell it from the next.</returns>
    public static IReadOnlyList<(double Value, int Decimals)> Over(double low, double high, int most)
    {
        var scale = NiceScale.Over(low, high, most);
        return [.. scale.Ticks.Select(t => (t, scale.Decimals))];
    }
}
