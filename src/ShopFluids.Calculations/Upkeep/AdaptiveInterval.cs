namespace ShopFluids.Calculations.Upkeep;

/// <summary>What an adaptive interval may be.</summary>
/// <param name="FloorDays">Shortest interval, 0.01 to 10 000 days.</param>
/// <param name="CeilingDays">Longest interval, from the floor to 10 000 days.</param>
/// <param name="Damping">Share of the way to the new interval that is gone at once, 0 to 1: 1 jumps, 0 never moves. 0.5 is common practice, no source.</param>
/// <exception cref="ArgumentOutOfRangeException">A number is out of its range.</exception>
public sealed record IntervalBounds(double FloorDays, double CeilingDays, double Damping = 0.5)
{
    /// <summary>Shortest interval, days.</summary>
    public double FloorDays { get; } = Require.Between(FloorDays, 0.01, 10_000, "days");

    /// <summary>Longest interval, days.</summary>
    public double CeilingDays { get; } = Require.Between(CeilingDays, FloorDays, 10_000, "days (the floor at least)");

    /// <summary>Share of the way gone at once.</summary>
    public double Damping { get; } = Require.Between(Damping, 0, 1, "(share)");
}

/// <summary>
/// An interval that follows what was found: aim = clamp(last × wanted / found), next = last + damping (aim − last), never outside floor and
/// ceiling. Twice as much oil on the skimmer as wanted halves the interval; nothing found aims at the ceiling. Proportion, no source.
/// </summary>
public static class AdaptiveInterval
{
    /// <summary>The next interval, days.</summary>
    /// <param name="lastDays">The interval that has just passed, 0.01 to 10 000 days.</param>
    /// <param name="wanted">What one likes to find, in any unit, 0.000001 to 10⁹.</param>
    /// <param name="found">What was found, in the same unit, 0 to 10⁹.</param>
    /// <param name="bounds">Floor, ceiling and damping.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static double NextDays(double lastDays, double wanted, double found, IntervalBounds bounds)
    {
        ArgumentNullException.ThrowIfNull(bounds);
        Require.Between(lastDays, 0.01, 10_000, "days");
        Require.Between(wanted, 0.000001, 1e9, "(of any one unit)");
        Require.Between(found, 0, 1e9, "(in the unit of what is wanted)");

        // Nothing found is an infinite time, which the ceiling ends.
        var aim = Math.Clamp(lastDays * (wanted / found), bounds.FloorDays, bounds.CeilingDays);
        return Math.Clamp(lastDays + (bounds.Damping * (aim - lastDays)), bounds.FloorDays, bounds.CeilingDays);
    }
}
