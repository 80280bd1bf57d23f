using System.Diagnostics;
using ShopFluids.Calculations.Balances;
using ShopFluids.Calculations.Charts;
using ShopFluids.Calculations.Forecasts;
using ShopFluids.Calculations.Statistics;
using ShopFluids.Calculations.Tests.Statistics;
using ShopFluids.Calculations.Uncertainties;
using Xunit;

namespace ShopFluids.Calculations.Tests;

/// <summary>
/// A full evaluation of a sump: balance, trends, charts, forecast, next test. Times are the best of many runs, so that a busy machine does not
/// fail them; the growth is what an O(n log n) calculation needs, with room to spare under the hundredfold of an O(n²) one.
/// </summary>
public sealed class SpeedTests
{
    [Fact]
    public void Evaluation_AYearOfWeeklyReadings_TakesUnderAMillisecond() =>
        Assert.InRange(BestMilliseconds(Sump(52), 400), 0, 1);

    [Fact]
    public void Evaluation_TenTimesTheReadings_TakesNowhereNearAHundredTimesAsLong() =>
        Assert.InRange(BestMilliseconds(Sump(10_000), 7) / BestMilliseconds(Sump(1_000), 30), 0, 40);

    private static double BestMilliseconds((SumpReading[] Readings, Movement[] Movements) sump, int runs)
    {
        var best = double.MaxValue;
        for (var run = 0; run < runs; run++)
        {
            var start = Stopwatch.GetTimestamp();
            Assert.True(Evaluate(sump.Readings, sump.Movements) > 0);
            best = Math.Min(best, Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        }

        TestContext.Current.TestOutputHelper?.WriteLine($"{sump.Readings.Length} readings: {best:0.000} ms");
        return best;
    }

    private static double Evaluate(SumpReading[] readings, Movement[] movements)
    {
        var balance = Balance.Over(readings, movements);
        var due = Outlook.NextTopUp(readings[^1], balance.PerDay, 100, 4, 12);
        double[] days = [.. readings.Select(reading => reading.Day)];
        double[] percents = [.. readings.Select(reading => reading.ConcentrationPercent.Value)];
        var series = Series.From(days, percents);
        var (slope, trend, line) = (TheilSen.Fit(series), MannKendall.Test(series), StraightLine.Fit(series));
        var limits = IndividualsChart.Limits(percents);
        var ewma = EwmaChart.Points(percents, limits.Mean, limits.Sigma);
        var cusum = CusumChart.Of(percents, limits.Mean, limits.Sigma / 2, 5 * limits.Sigma);
        var runs = RunRules.Find(percents, limits.Mean, limits.Sigma, RunRules.WesternElectric);
        var band = new LimitBand(4, 12);
        var forecast = LimitForecast.Of(line, band, days[^1], days[^1] + 365);
        var next = NextTest.Plan(line, band, days[^1], 1, 14);
        return next.Day + slope.Intercept + trend.PValue + ewma.Count + cusum.Points.Count + runs.Count + (due.Days?.Value ?? 0)
            + (forecast.Earliest ?? 0) + RobustScale.Deviation(percents);
    }

    private static (SumpReading[] Readings, Movement[] Movements) Sump(int readings)
    {
        var noise = new Noise(20260101);
        return (
            [.. Enumerable.Range(0, readings).Select(i => new SumpReading(
                7.0 * i, new(400 + (4 * noise.Normal()), 8), new(7 + (0.3 * noise.Normal()) + (0.2 * Math.Sin(i)), 0.3), 100.0 * i))],
            [.. Enumerable.Range(0, readings - 1).Select(i => Movement.Addition(7.0 * i, new(100, 2), Estimate.Exact(2)))]);
    }
}
