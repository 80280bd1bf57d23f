using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.OverdueTest;

/// <summary>Flags a test that was not made in time. One flag for a sump, however many of its tests are late; it ends when none is.</summary>
public static class OverdueTestRule
{
    /// <summary>The rule's code.</summary>
    public const string Code = "overdue-test";

    /// <summary>The rule's version.</summary>
    public const int Version = 1;

    /// <summary>The flag for a late test; null when it is no test, is not late, or the sump has the flag already.</summary>
    /// <param name="test">An open task.</param>
    /// <param name="standing">What is known of the sump.</param>
    /// <param name="calendar">The shop's days.</param>
    /// <param name="now">The moment of judging, UTC. A test is late from its due moment on.</param>
    public static RaisedFlag? Check(OpenTask test, StandingFacts standing, ShopCalendar calendar, DateTime now)
    {
        if (!IsLate(test, now) || standing.OpenFlags.Any(f => f.Rule == Code))
        {
            return null;
        }

        return new(Code, Version, "", Verdict.Warning, Direction.None, new SortedDictionary<string, decimal>(StringComparer.Ordinal)
        {
            [NumberNames.HoursLate] = (now - test.DueAt).Ticks / TimeSpan.TicksPerHour,
            [NumberNames.ShopDaysLate] = OpenDays.CountBegun(test.DueAt, now, calendar),
        });
    }

    /// <summary>Whether an open task is a test that is late.</summary>
    /// <param name="task">An open task.</param>
    /// <param name="now">The moment of judging, UTC.</param>
    public static bool IsLate(OpenTask task, DateTime now) => task.Kind == TaskKind.Test && task.DueAt <= now;
}
