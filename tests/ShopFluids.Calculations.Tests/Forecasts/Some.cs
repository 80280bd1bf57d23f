using ShopFluids.Calculations.Statistics;
using ShopFluids.Calculations.Tests.Statistics;

namespace ShopFluids.Calculations.Tests.Forecasts;

/// <summary>Trends to forecast from.</summary>
internal static class Some
{
    public static StraightLine Drifting(Noise noise, int readings, double start, double perDay, double sigma) =>
        StraightLine.Fit(Readings(noise, readings, start, perDay, sigma));

    public static Series Readings(Noise noise, int readings, double start, double perDay, double sigma)
    {
        double[] days = [.. Enumerable.Range(0, readings).Select(i => 7.0 * i)];
        return Series.From(days, [.. days.Select(day => start + (perDay * day) + (sigma * noise.Normal()))]);
    }
}
