using System.Diagnostics;
using ShopFluids.Calculations.Balances;
using ShopFluids.Calculations.Charts;
using ShopFluids.Calculations.Forecasts;
using ShopFluids.Calculations.Statistics;
using ShopFluids.Calculations.Uncertainties;

namespace ShopFluids.Benchmarks;

/// <summary>A full evaluation of a sump from its readings: balance, trends, charts, forecast, next test.</summary>
internal static class EvaluateSump
{
    private const int WarmUp = 300;

    /// <summary>The best of several runs, so that other work on the machine counts little.</summary>
    public static double BestMilliseconds(int readings, int runs)
    {
        var sump = MakeSump(readings);
        var best = double.MaxValue;
        var sum = 0.0;
        for (var run = 0; run < WarmUp + runs; run++)
        {
            // The code is compiled for good on small sumps; a large one need not be evaluated so often for that.
            var (given, isCounted) = run < WarmUp ? (MakeSump(52), false) : (sump, true);
            var started = Stopwatch.GetTimestamp();
            sum += Evaluate(given.Readings, given.Movements);
            best = isCounted ? Math.Min(best, Stopwatch.GetElapsedTime(started).TotalMilliseconds) : best;
        }

        return double.IsFinite(sum) ? best : throw new InvalidOperationException("An evaluation gave no number.");
    }

    private static double Evaluate(SumpReading[] readings, Movement[] movements)
    {
        var balance = Balance.Over(readings, movements);
        var due = Outlook.NextTopUp(readings[^1], balance.PerDay, 100, 4, 12);
        double[] days = [.. readings.Select(r => r.Day)];
        double[] percents = [.. readings.Select(r => r.ConcentrationPercent.Value)];
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

    // Readings every week around 400 L and 7 %, topped up each time.
    private static (SumpReading[] Readings, Movement[] Movements) MakeSump(int readings)
    {
        var random = new Random(20260101);
        double Noise() => random.NextDouble() + random.NextDouble() + random.NextDouble() - 1.5;
        return (
            [.. Enumerable.Range(0, readings).Select(i => new SumpReading(
                7.0 * i, new Estimate(400 + (8 * Noise()), 8), new Estimate(7 + (0.6 * Noise()) + (0.2 * Math.Sin(i)), 0.3), 100.0 * i))],
            [.. Enumerable.Range(0, readings - 1).Select(i => Movement.Addition(7.0 * i, new Estimate(100, 2), Estimate.Exact(2)))]);
    }
}
