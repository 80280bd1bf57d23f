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
        Assert.True(step.Basis == IntervalBasis.FromLastDone || next > item));

    [Property]
    public void After_ShiftedStep_IsShownOnAnOpenDay(CareHistory history) => Each(history, (step, _, _, next) =>
        Assert.True(step.ClosedDays == ClosedDayPolicy.AsIs || Calendar.IsOpen(next)));

    [Property]
    public void After_AnchoredStepAsItIs_StaysInTheSeries(CareHistory history) => Each(history, (step, _, _, next) =>
        Assert.True(
            step.Basis == IntervalBasis.FromLastDone
            || step.ClosedDays != ClosedDayPolicy.AsIs
            || (next.DayNumber - step.Anchor.DayNumber) % step.IntervalDays == 0));

    [Property]
    public void After_FromLastDoneAsItIs_IsOneIntervalAfterTheDayDone(CareHistory history) => Each(history, (step, _, doneOn, next) =>
        Assert.True(
            step.Basis == IntervalBasis.CalendarAnchored
            || step.ClosedDays != ClosedDayPolicy.AsIs
            || next == doneOn.AddDays(step.IntervalDays)));

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
        var history = from basis in Gen.Elements(Enum.GetValues<IntervalBasis>())
                      from policy in Gen.Elements(Enum.GetValues<ClosedDayPolicy>())
                      from interval in Gen.Choose(1, 120)
                      from offset in Gen.Choose(-400, 400)
                      from late in Gen.Choose(-10, 60).ListOf()
                      select new CareHistory(Some.Step(TaskKind.Skim, basis, interval, new DateOnly(2026, 3, 4).AddDays(offset), policy), [.. late]);
        return history.ToArbitrary();
    }
}
