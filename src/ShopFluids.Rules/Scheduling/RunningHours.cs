namespace ShopFluids.Rules.Scheduling;

/// <summary>
/// Running hours as days: hours / weekly hours × 7. The weekly hours are those that the set-up says of the machine; no meter is read, so this
/// is as good as they are. Proportion.
/// </summary>
public static class RunningHours
{
    /// <summary>The longest interval, days: also that of a machine that does not run. Ten years; common practice, no source.</summary>
    public const int MaximumDays = 3660;

    /// <summary>Whole days, 1 to <see cref="MaximumDays"/>.</summary>
    /// <param name="intervalHours">Running hours between two times, above 0.</param>
    /// <param name="weeklyHours">Running hours a week, 0 to 168; of a central system those of the machine that runs most.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is out of its range.</exception>
    public static int Days(int intervalHours, decimal weeklyHours)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(intervalHours);
        ArgumentOutOfRangeException.ThrowIfNegative(weeklyHours);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(weeklyHours, 168);
        return weeklyHours == 0 ? MaximumDays
            : (int)Math.Clamp(Math.Round(intervalHours * 7 / weeklyHours, MidpointRounding.AwayFromZero), 1, MaximumDays);
    }
}
