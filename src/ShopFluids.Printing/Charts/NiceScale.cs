namespace ShopFluids.Printing.Charts;

/// <summary>A scale of values with ticks on steps of 1, 2 or 5 times a power of ten.</summary>
internal sealed record NiceScale(double Low, double High, double Step, int Decimals, IReadOnlyList<double> Ticks)
{
    private static readonly double[] Steps = [1, 2, 5, 10];

    /// <summary>The scale over a range, with at most the wanted number of ticks and at least one.</summary>
    public static NiceScale Over(double low, double high, int mostTicks)
    {
        var rough = (high - low) / Math.Max(1, mostTicks);
        var power = Math.Pow(10, Math.Floor(Math.Log10(rough)));
        var step = power * Steps.First(s => s * power >= rough * (1 - 1e-9));
        var decimals = Math.Clamp((int)-Math.Floor(Math.Log10(step) + 1e-9), 0, 12);

        // Ticks are counted in whole steps, so that no error adds up along the scale.
        var first = (long)Math.Ceiling((low / step) - 1e-9);
        var last = (long)Math.Floor((high / step) + 1e-9);
        var ticks = new List<double>();
        for (var n = first; n <= last; n++)
        {
            ticks.Add(n == 0 ? 0 : Math.Round(n * step, decimals));
        }

        return new NiceScale(low, high, step, decimals, ticks);
    }
}
