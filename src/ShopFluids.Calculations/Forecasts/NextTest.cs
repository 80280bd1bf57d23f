using ShopFluids.Calculations.Statistics;

namespace ShopFluids.Calculations.Forecasts;

/// <summary>What sets the day of a test.</summary>
public enum NextTestReason
{
    /// <summary>The policy's longest interval: the risk stays below what is accepted, or there are too few readings to tell.</summary>
    Ceiling = 0,

    /// <summary>The risk of being out of limits reaches what is accepted.</summary>
    Risk = 1,

    /// <summary>The policy's shortest interval: the risk is that high already.</summary>
    Floor = 2,
}

/// <summary>When to test next.</summary>
/// <param name="Day">The day, in the time of the trend.</param>
/// <param name="Reason">What sets it.</param>
/// <param name="Risk">Probability that a reading on that day is out of limits, 0 to 1; null without a trend.</param>
public sealed record NextTest(double Day, NextTestReason Reason, double? Risk)
{
    private const double LongestDays = 3_650;

    /// <summary>
    /// The earlier of the ceiling and the first day on which the risk passes what is accepted, and not before the floor. The days from floor to
    /// ceiling are gone through one by one, and the time within the day is found by halving.
    /// </summary>
    /// <param name="line">The trend since the last fluid change or adjustment, in days; null where there are fewer than three readings.</param>
    /// <param name="limits">The limits.</param>
    /// <param name="lastTestDay">The day of the last test, in the time of the trend, −10⁸ to 10⁸.</param>
    /// <param name="floorDays">The shortest interval, 0 to the ceiling, days.</param>
    /// <param name="ceilingDays">The longest interval, above 0 to 3 650 days.</param>
    /// <param name="acceptedRisk">0.0001 to 0.5.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static NextTest Plan(
        StraightLine? line, LimitBand limits, double lastTestDay, double floorDays, double ceilingDays, double acceptedRisk = 0.05)
    {
        ArgumentNullException.ThrowIfNull(limits);
        Require.Between(lastTestDay, -1e8, 1e8, "days");
        Require.Positive(ceilingDays, LongestDays, "days");
        Require.Between(floorDays, 0, ceilingDays, "days (the ceiling)");
        Require.Between(acceptedRisk, 0.0001, 0.5, "of risk");
        var (floor, ceiling) = (lastTestDay + floorDays, lastTestDay + ceilingDays);
        if (line is null)
        {
            return new(ceiling, NextTestReason.Ceiling, null);
        }

        var risk = OutOfLimits.ProbabilityAt(line, limits, floor);
        if (risk >= acceptedRisk)
        {
            return new(floor, NextTestReason.Floor, risk);
        }

        var safe = floor;
        while (safe < ceiling)
        {
            var next = Math.Min(ceiling, safe + 1);
            risk = OutOfLimits.ProbabilityAt(line, limits, next);
            if (risk >= acceptedRisk)
            {
                return Between(line, limits, safe, next, acceptedRisk);
            }

            safe = next;
        }

        return new(ceiling, NextTestReason.Ceiling, risk);
    }

    private static NextTest Between(StraightLine line, LimitBand limits, double safe, double risky, double acceptedRisk)
    {
        // To a minute; nobody plans a test more closely.
        while (risky - safe > 1.0 / 1440)
        {
            var middle = (safe + risky) / 2;
            (safe, risky) = OutOfLimits.ProbabilityAt(line, limits, middle) >= acceptedRisk ? (safe, middle) : (middle, risky);
        }

        return new(risky, NextTestReason.Risk, OutOfLimits.ProbabilityAt(line, limits, risky));
    }
}
