using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Tests.Scheduling;

/// <summary>What holds for any step of a care plan, done early, late or on the day.</summary>
[Properties(Arbitrary = [typeof(CareHistories)], MaxTest = 300, Replay = "20260304,20261125")]
public sealed class CareSchedulePropertyTests
{
    private static readonly ShopCalendar Calendar = Some.Calendar(closedDays: [new(2026, 4, 3), new(2026, 4, 6), new(2026, 5, 1), new(2026, 12, 24), new(2026, 12, 25)]);

    [Property]
    public void After_AnyHistory_NextIsAfterTheDayDone(CareHistory history) =>
        Each(history, (_, _, doneOn, next) => Assert.True(next > doneOn));

    [Property]
    public void After_AnchoredStep_NextIsAfterTheItemDone(CareHistory history) => Each(history, (step, item, _, next) =>
        Assert.True(step.Basis != IntervalBasis.CalendarAnchored || next > item));

    [Property]
    public void After_ShiftedStep_IsShownOnAnOpenDay(CareHistory history) => Each(history, (step, _, _, next) =>
        Assert.True(step.ClosedDays == ClosedDayPolicy.AsIs || Calendar.IsOpen(next)));

    [Property]
    public void After_AnchoredStepAsItIs_StaysInTheSeries(CareHistory history) => Each(history, (step, _, _, next) =>
        Assert.True(
            step.Basis != IntervalBasis.CalendarAnchored
            || step.ClosedDays != ClosedDayPolicy.AsIs
            || (step.IntervalMonths > 0
                ? Enumerable.Range(0, 5000).Any(k => step.Later(step.Anchor, k) == next)
                : (next.DayNumber - step.Anchor.DayNumber) % step.IntervalDays == 0)));

    [Property]
    public void After_FromLastDoneAsItIs_IsOneIntervalAfterTheDayDone(CareHistory history) => Each(history, (step, _, doneOn, next) =>
        Assert.True(
            step.Basis == IntervalBasis.CalendarAnchored
            || step.ClosedDays != ClosedDayPolicy.AsIs
            || next == step.Later(doneOn)));

    // Done a little early, the item of a series is not asked for again before its interval has passed.
    [Property]
    public void CountsFor_DayOfTheItemBefore_DoesNotCountForTheNext(CareHistory history) => Each(history, (step, item, _, next) =>
    {
        var open = Some.Task(step.Kind, CareSchedule.CauseOf(step.Id), CareSchedule.DueAt(next, Calendar));
        Assert.True(step.Basis != IntervalBasis.CalendarAnchored || step.ClosedDays != ClosedDayPolicy.AsIs || !CareSchedule.CountsFor(step, open, Calendar.StartOf(item), Calendar));
        Assert.True(CareSchedule.CountsFor(step, open, Calendar.StartOf(next), Calendar));
    });

    private static void Each(CareHistory history, Action<CareStepFacts, DateOnly, DateOnly, DateOnly> check)
    {
        var step = history.Step;
        var item = CareSchedule.DueDayOf(CareSchedule.First(step, null, Some.Now, Calendar).DueAt, Calendar);
        foreach (var days in history.DaysLate)
        {
            var doneOn = item.AddDays(days);
            var done = Some.Task(step.Kind, CareSchedule.CauseOf(step.Id), CareSchedule.DueAt(item, Calendar));
            var next = CareSchedule.DueDayOf(CareSchedule.After(step, done, Calendar.StartOf(doneOn).AddHours(3), Calendar).DueAt, Calendar);
            check(step, item, doneOn, next);
            item = next;
        }
    }
}

/// <summary>A step, and how many days late (or early, below 0) each of its items was done.</summary>
public sealed record CareHistory(CareStepFacts Step, IReadOnlyList<int> DaysLate);

/// <summary>Makes steps of every basis and policy.</summary>
public static class CareHistories
{
    public static Arbitrary<CareHistory> History()
    {
        var history = from basis in Gen.Elements(IntervalBasis.CalendarAnchored, IntervalBasis.FromLastDone, IntervalBasis.Condition, IntervalBasis.RunningHours)
                      from policy in Gen.Elements(Enum.GetValues<ClosedDayPolicy>())
                      from interval in Gen.Choose(1, 120)
                      from months in Gen.Frequency((2, Gen.Constant(0)), (1, Gen.Choose(1, 24)))
                      from offset in Gen.Choose(-400, 400)
                      from late in Gen.Choose(-10, 60).ListOf()
                      select new CareHistory(Some.Step(TaskKind.Skim, basis, interval, new DateOnly(2026, 3, 4).AddDays(offset), policy) with { IntervalMonths = months }, [.. late]);
        return history.ToArbitrary();
    }
}
