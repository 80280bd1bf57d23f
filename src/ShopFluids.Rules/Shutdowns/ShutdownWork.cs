using ShopFluids.Calculations.Upkeep;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Shutdowns;

/// <summary>Days on which a machine, or the whole shop, stands.</summary>
/// <param name="Id">The shutdown's id; its tasks carry it in their cause.</param>
/// <param name="FirstDay">The first shop day without production.</param>
/// <param name="LastDay">The last one; not before the first.</param>
public sealed record ShutdownFacts(Guid Id, DateOnly FirstDay, DateOnly LastDay)
{
    /// <summary>Days without production.</summary>
    public int Days => LastDay.DayNumber - FirstDay.DayNumber + 1;

    /// <summary>Whether it has every day of another.</summary>
    /// <param name="other">The other.</param>
    public bool Covers(ShutdownFacts other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return FirstDay <= other.FirstDay && LastDay >= other.LastDay;
    }

    /// <summary>
    /// The same with the closed days on either side of it, such as a week-end or another shutdown: the fluid stands through them as well.
    /// </summary>
    /// <param name="calendar">The sump's days, closed while it stands.</param>
    public ShutdownFacts WithClosedDaysAround(ShopCalendar calendar)
    {
        ArgumentNullException.ThrowIfNull(calendar);
        var lastOpen = OpenDays.OnOrBefore(FirstDay.AddDays(-1), calendar);
        var firstOpen = OpenDays.OnOrAfter(LastDay.AddDays(1), calendar);
        return this with { FirstDay = lastOpen.AddDays(1), LastDay = firstOpen.AddDays(-1) };
    }
}

/// <summary>When work of a shutdown is done.</summary>
public enum ShutdownPhase
{
    /// <summary>By the last open day before it.</summary>
    Before,

    /// <summary>While the machine stands.</summary>
    During,

    /// <summary>Before the first cut.</summary>
    After,
}

/// <summary>The work that a shutdown asks of one sump: before, while it stands, and after.</summary>
public static class ShutdownWork
{
    private const string BeforePrefix = "shutdown-before:";
    private const string DuringPrefix = "shutdown-during:";
    private const string AfterPrefix = "shutdown-after:";

    /// <summary>The cause of work before a shutdown.</summary>
    public static string BeforeOf(Guid shutdownId) => $"{BeforePrefix}{shutdownId}";

    /// <summary>The cause of work during a shutdown.</summary>
    public static string DuringOf(Guid shutdownId) => $"{DuringPrefix}{shutdownId}";

    /// <summary>The cause of work after a shutdown.</summary>
    public static string AfterOf(Guid shutdownId) => $"{AfterPrefix}{shutdownId}";

    /// <summary>The causes of all work of a shutdown.</summary>
    public static IReadOnlyList<string> CausesOf(Guid shutdownId) => [BeforeOf(shutdownId), DuringOf(shutdownId), AfterOf(shutdownId)];

    /// <summary>Whether a cause is that of a shutdown.</summary>
    public static bool IsCause(string cause) => IsBefore(cause) || IsDuring(cause) || IsAfter(cause);

    /// <summary>Whether it is work before a shutdown.</summary>
    public static bool IsBefore(string cause) => cause.StartsWith(BeforePrefix, StringComparison.Ordinal);

    /// <summary>Whether it is work during a shutdown.</summary>
    public static bool IsDuring(string cause) => cause.StartsWith(DuringPrefix, StringComparison.Ordinal);

    /// <summary>Whether it is work after a shutdown.</summary>
    public static bool IsAfter(string cause) => cause.StartsWith(AfterPrefix, StringComparison.Ordinal);

    /// <summary>When work of a shutdown is done; null when the cause is not that of a shutdown.</summary>
    public static ShutdownPhase? PhaseOf(string cause) =>
        IsBefore(cause) ? ShutdownPhase.Before : IsDuring(cause) ? ShutdownPhase.During : IsAfter(cause) ? ShutdownPhase.After : null;

    /// <summary>The shutdown behind a cause; null when it is not that of a shutdown.</summary>
    public static Guid? ShutdownOf(string cause) => IsCause(cause) && Guid.TryParse(cause[(cause.IndexOf(':', StringComparison.Ordinal) + 1)..], out var id) ? id : null;

    /// <summary>
    /// The tasks of one sump. Work before is due at the end of the last open day before the shutdown, or today where the machine stands
    /// already; the test after at the end of the first open day.
    /// </summary>
    /// <param name="shutdown">The shutdown.</param>
    /// <param name="plan">What it asks of the sump.</param>
    /// <param name="limits">From how many days on what is done.</param>
    /// <param name="calendar">The sump's days, closed while it stands.</param>
    /// <param name="now">The moment of planning, UTC.</param>
    public static IReadOnlyList<ProposedTask> Plan(ShutdownFacts shutdown, ShutdownPlan plan, ShutdownLimits limits, ShopCalendar calendar, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(shutdown);
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(limits);
        ArgumentNullException.ThrowIfNull(calendar);
        var tasks = new List<ProposedTask>();
        var before = CareSchedule.DueAt(Later(OpenDays.OnOrBefore(shutdown.FirstDay.AddDays(-1), calendar), calendar.ShopDayOf(now)), calendar);
        void Before(bool isAsked, TaskKind kind)
        {
            if (isAsked)
            {
                tasks.Add(new(kind, BeforeOf(shutdown.Id), null, before, FromRecipe: false));
            }
        }

        Before(plan.DrainBefore, TaskKind.DrainClean);
        Before(plan.SkimBefore, TaskKind.Skim);
        Before(plan.TestBefore, TaskKind.Test);
        Before(plan.AdjustBefore || plan.TopUpBefore, TaskKind.Adjust);
        if (plan.CirculationHours > 0 && NextCirculation(shutdown, shutdown.FirstDay.AddDays(-1), limits, calendar, now) is { } circulation)
        {
            tasks.Add(circulation);
        }

        if (plan.TestAfter)
        {
            tasks.Add(TestAfter(shutdown.Id, shutdown.LastDay, calendar));
        }

        return tasks;
    }

    /// <summary>The test before the first cut: due at the end of the first open day after the last idle one.</summary>
    /// <param name="shutdownId">The shutdown.</param>
    /// <param name="lastDay">Its last day.</param>
    /// <param name="calendar">The sump's days.</param>
    public static ProposedTask TestAfter(Guid shutdownId, DateOnly lastDay, ShopCalendar calendar)
    {
        ArgumentNullException.ThrowIfNull(calendar);
        return new(TaskKind.Test, AfterOf(shutdownId), null, CareSchedule.DueAt(OpenDays.OnOrAfter(lastDay.AddDays(1), calendar), calendar), FromRecipe: false);
    }

    /// <summary>
    /// When to circulate next, closed day or not: as many days after the last time as the fluid may stand, never in the past; null when the
    /// shutdown is over by then.
    /// </summary>
    /// <param name="shutdown">The shutdown.</param>
    /// <param name="last">The day on which the fluid last moved.</param>
    /// <param name="limits">How many days it may stand.</param>
    /// <param name="calendar">The sump's days.</param>
    /// <param name="now">The moment of planning, UTC.</param>
    public static ProposedTask? NextCirculation(ShutdownFacts shutdown, DateOnly last, ShutdownLimits limits, ShopCalendar calendar, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(shutdown);
        ArgumentNullException.ThrowIfNull(limits);
        ArgumentNullException.ThrowIfNull(calendar);
        var day = Later(last.AddDays(Math.Max(1, limits.CirculateFromDays)), calendar.ShopDayOf(now));
        return day > shutdown.LastDay ? null : new(TaskKind.Circulate, DuringOf(shutdown.Id), null, CareSchedule.DueAt(day, calendar), FromRecipe: false);
    }

    /// <summary>
    /// Whether the reading completes a test of a shutdown: it has the latest word on concentration and pH. The test before the first cut is not done by a
    /// reading from the days before: what stands goes on changing.
    /// </summary>
    /// <param name="test">The open test.</param>
    /// <param name="input">What the evaluation may look at.</param>
    public static bool IsCompletedBy(OpenTask test, EvaluationInput input)
    {
        ArgumentNullException.ThrowIfNull(test);
        ArgumentNullException.ThrowIfNull(input);
        return IsCause(test.Cause)
            && input.IsLatest(ParameterCodes.Concentration)
            && input.IsLatest(ParameterCodes.Ph)
            && (IsBefore(test.Cause) || input.Calendar.ShopDayOf(input.Reading.TakenAt) >= CareSchedule.DueDayOf(test.DueAt, input.Calendar));
    }

    private static DateOnly Later(DateOnly a, DateOnly b) => a > b ? a : b;
}
