using ShopFluids.Calculations.Statistics;

namespace ShopFluids.Calculations.Forecasts;

/// <summary>Which limit is met first.</summary>
public enum LimitSide
{
    /// <summary>None within the time looked at.</summary>
    None = 0,

    /// <summary>The lower one.</summary>
    Low = 1,

    /// <summary>The upper one.</summary>
    High = 2,
}

/// <summary>When a limit is met.</summary>
/// <param name="Side">The limit that the prediction interval meets first.</param>
/// <param name="Earliest">The first time at which the prediction interval meets a limit; null for none within the time looked at.</param>
/// <param name="Expected">When the line itself meets that limit; null for not, or where the slope cannot be told from 0.</param>
/// <param name="Latest">When the whole prediction interval is beyond that limit; null likewise.</param>
/// <param name="HasTrend">Whether the slope can be told from 0 at the confidence asked for.</param>
public sealed record LimitForecast(LimitSide Side, double? Earliest, double? Expected, double? Latest, bool HasTrend)
{
    private const double LongestSpan = 1e6;

    /// <summary>
    /// Solves ŷ(x) ± t s √(1 + 1/n + (x − x̄)²/S_xx) = limit for the first x. Both edges of the band are curves of one bend, so that an edge
    /// that is inside now crosses its limit at most once; it is found by halving.
    /// </summary>
    /// <param name="line">The trend since the last fluid change or adjustment.</param>
    /// <param name="limits">The limits.</param>
    /// <param name="from">From when on, −10⁹ to 10⁹, mostly the time of the last reading.</param>
    /// <param name="until">Until when, after <paramref name="from"/> by at most 10⁶, and up to 10⁹.</param>
    /// <param name="confidence">Of the two-sided prediction interval, 0.5 to 0.9999.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static LimitForecast Of(StraightLine line, LimitBand limits, double from, double until, double confidence = 0.9)
    {
        ArgumentNullException.ThrowIfNull(line);
        ArgumentNullException.ThrowIfNull(limits);
        Require.Between(from, -1e9, 1e9, "in the unit of time");
        Require.Between(until, from, Math.Min(1e9, from + LongestSpan), "in the unit of time (from the start)");
        var factor = line.TFactor(confidence);
        var hasTrend = Math.Abs(line.Slope) > factor * line.SlopeDeviation;
        var low = limits.Low is { } lower ? FirstBeyond(line, -1, lower, factor, from, until) : null;
        var high = limits.High is { } upper ? FirstBeyond(line, 1, upper, factor, from, until) : null;
        if (low is null && high is null)
        {
            return new(LimitSide.None, null, null, null, hasTrend);
        }

        var side = high is null || low <= high ? LimitSide.Low : LimitSide.High;
        var (sign, limit) = side is LimitSide.Low ? (-1, limits.Low ?? 0) : (1, limits.High ?? 0);
        return new(
            side,
            side is LimitSide.Low ? low : high,
            hasTrend ? FirstBeyond(line, sign, limit, 0, from, until) : null,
            hasTrend ? FirstBeyond(line, sign, limit, -factor, from, until) : null,
            hasTrend);
    }

    // The first time at which sign × (ŷ − limit) + factor × deviation is 0 or more.
    private static double? FirstBeyond(StraightLine line, int sign, double limit, double factor, double from, double until)
    {
        double Beyond(double time) => (sign * (line.At(time) - limit)) + (factor * line.PredictionDeviation(time));
        if (Beyond(from) >= 0)
        {
            return from;
        }

        if (!(Beyond(until) >= 0))
        {
            return null;
        }

        var (inside, outside) = (from, until);
        // Sixty halvings of the longest span leave less than 10⁻¹².
        for (var step = 0; step < 60; step++)
        {
            var middle = (inside + outside) / 2;
            (inside, outside) = Beyond(middle) >= 0 ? (inside, middle) : (middle, outside);
        }

        return outside;
    }
}
