using ShopFluids.Calculations.Upkeep;

namespace ShopFluids.Rules.Scheduling;

/// <summary>The interval of work that follows what is found: more found, sooner again; less found, later. See <see cref="AdaptiveInterval"/>.</summary>
/// <param name="FloorDays">Shortest interval, 1 to 3660 days.</param>
/// <param name="CeilingDays">Longest interval, from the floor to 3660 days.</param>
/// <param name="Wanted">What one likes to find each time, above 0, in the unit of the find.</param>
public sealed record ConditionInterval(int FloorDays, int CeilingDays, decimal Wanted)
{
    private const int Decimals = 3;

    /// <summary>
    /// The next interval, days. What was found in another time than planned is first brought to the planned one, so that work done late does
    /// not look like a sump that has grown worse. Nothing said leaves the interval as it is, within the bounds.
    /// </summary>
    /// <param name="plannedDays">The interval after which the work was planned.</param>
    /// <param name="elapsedDays">Days since the same work was last done; null where that is not known.</param>
    /// <param name="found">What was found; null where nothing was said.</param>
    public decimal NextDays(decimal plannedDays, int? elapsedDays, decimal? found)
    {
        var planned = decimal.Clamp(plannedDays, FloorDays, CeilingDays);
        if (found is not { } amount)
        {
            return planned;
        }

        var inPlannedTime = (double)amount * (double)planned / Math.Max(1, elapsedDays ?? (double)planned);
        return decimal.Round((decimal)AdaptiveInterval.NextDays((double)planned, (double)Wanted, inPlannedTime, new IntervalBounds(FloorDays, CeilingDays)), Decimals);
    }

    /// <summary>An interval in whole days, as due days are reckoned.</summary>
    public static int WholeDays(decimal days) => (int)decimal.Round(days, MidpointRounding.AwayFromZero);
}
