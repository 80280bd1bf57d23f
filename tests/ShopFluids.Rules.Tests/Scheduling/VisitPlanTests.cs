using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Tests.Scheduling;

/// <summary>Gathering: what holds for any work of a sump, and the table of docs/rules/gathering.md.</summary>
[Properties(Arbitrary = [typeof(SumpWorks)], MaxTest = 500, Replay = "20260304,20261127")]
public sealed class VisitPlanTests
{
    private static readonly DateOnly Today = new(2026, 3, 4);
    private static readonly ShopCalendar Calendar = Some.Calendar(closedDays: [new(2026, 3, 12), new(2026, 3, 13), new(2026, 4, 3), new(2026, 4, 6)]);

    [Property]
    public void Of_AnyWork_EachTaskIsInExactlyOneVisit(SumpWork sump)
    {
        var visits = VisitPlan.Of(WorkOf(sump));

        Assert.Equal(sump.Tasks.Select(t => t.Open.Id).Order(), visits.SelectMany(v => v.TaskIds).Order());
        Assert.All(visits, v => Assert.NotEmpty(v.TaskIds));
    }

    [Property]
    public void Of_AnyWork_NoTaskIsDoneOutsideItsDays(SumpWork sump)
    {
        var work = WorkOf(sump);

        foreach (var visit in VisitPlan.Of(work))
        {
            Assert.All(work.Where(w => visit.TaskIds.Contains(w.TaskId)), w => Assert.InRange(visit.Day, w.EarliestDay, w.LatestDay));
        }
    }

    // What is not late yet is never done after the day on which it is due.
    [Property]
    public void Of_AnyWork_NothingPassesItsDueDay(SumpWork sump)
    {
        foreach (var visit in VisitPlan.Of(WorkOf(sump)))
        {
            foreach (var task in sump.Tasks.Where(t => visit.TaskIds.Contains(t.Open.Id)))
            {
                var due = CareSchedule.DueDayOf(task.Open.DueAt, Calendar);
                Assert.True(visit.Day <= due || due < Today || !Calendar.IsOpen(due), $"due {due:o}, visited {visit.Day:o}");
            }
        }
    }

    [Property]
    public void Of_AnyWork_VisitsAreOnOpenDaysUnlessAStepAsksForAClosedOne(SumpWork sump)
    {
        foreach (var visit in VisitPlan.Of(WorkOf(sump)))
        {
            var setsTheDay = sump.Tasks.Where(t => visit.TaskIds.Contains(t.Open.Id)).Any(t => t.Step is { ClosedDays: ClosedDayPolicy.AsIs } && CareSchedule.DueDayOf(t.Open.DueAt, Calendar) == visit.Day);
            Assert.True(Calendar.IsOpen(visit.Day) || setsTheDay, $"{visit.Day:o}");
        }
    }

    [Property]
    public void Of_AnyWork_NoVisitIsInThePast(SumpWork sump) => Assert.All(VisitPlan.Of(WorkOf(sump)), v => Assert.True(v.Day >= Today));

    [Property]
    public void Of_AnyWork_VisitsHaveDaysOfTheirOwnInOrder(SumpWork sump)
    {
        var days = VisitPlan.Of(WorkOf(sump)).Select(v => v.Day).ToList();

        Assert.Equal(days.Distinct().Order(), days);
    }

    // Tasks of which no two have a day in common need a visit each: whoever finds as many as there are visits has shown that fewer will not do.
    [Property]
    public void Of_AnyWork_FewerVisitsWillNotDo(SumpWork sump)
    {
        var work = WorkOf(sump);
        var apart = new List<VisitWork>();
        foreach (var next in work.OrderBy(w => w.LatestDay))
        {
            if (apart.TrueForAll(a => a.LatestDay < next.EarliestDay))
            {
                apart.Add(next);
            }
        }

        Assert.Equal(apart.Count, VisitPlan.Of(work).Count);
    }

    [Property]
    public void Of_AnyWork_OrderOfTheTasksDoesNotMatter(SumpWork sump)
    {
        var work = WorkOf(sump);

        Assert.Equal(Said(VisitPlan.Of(work)), Said(VisitPlan.Of(work.Reverse())));
    }

    [Property]
    public void Of_NothingBroughtForward_HasAVisitForEachDueDay(SumpWork sump)
    {
        var work = sump.Tasks.Select(t => VisitWork.Of(t.Open, t.Step, 0, Calendar, Today)).ToList();

        Assert.Equal(work.Select(w => w.LatestDay).Distinct().Order(), VisitPlan.Of(work).Select(v => v.Day));
    }

    [Fact]
    public void Of_NoWork_IsNoVisit() => Assert.Empty(VisitPlan.Of([]));

    [Fact]
    public void Of_TaskThatBeginsAfterItIsDue_IsRefused() =>
        Assert.StartsWith(
            "A task can be done from its earliest to its latest day.",
            Assert.Throws<ArgumentException>("work", () => VisitPlan.Of([new(Some.Id(1), Today.AddDays(1), Today)])).Message,
            StringComparison.Ordinal);

    // By the last day that is in time, then by the first day that makes sense, then as they are numbered.
    [Fact]
    public void Of_TasksOfOneVisit_AreInTheOrderInWhichTheyHaveToBeDone()
    {
        VisitWork[] work =
        [
            new(Some.Id(3), Today.AddDays(-1), Today.AddDays(2)),
            new(Some.Id(2), Today.AddDays(-1), Today.AddDays(2)),
            new(Some.Id(1), Today, Today.AddDays(2)),
            new(Some.Id(4), Today.AddDays(-5), Today.AddDays(3)),
            new(Some.Id(9), Today, Today),
        ];

        Assert.Equal([Some.Id(9), Some.Id(2), Some.Id(3), Some.Id(1), Some.Id(4)], Assert.Single(VisitPlan.Of(work)).TaskIds);
    }

    // The table of docs/rules/gathering.md: test on Wednesday, skim on Friday, filter on Tuesday, draining on Thursday.
    [Theory]
    [InlineData(0, "3-04: Test; 3-05: DrainClean; 3-06: Skim; 3-10: ChangeFilter")]
    [InlineData(2, "3-04: Test Skim; 3-05: DrainClean; 3-10: ChangeFilter")]
    [InlineData(4, "3-04: Test Skim ChangeFilter; 3-05: DrainClean")]
    public void Of_WorkOfTheTable_IsGatheredByTheWindow(int window, string expected)
    {
        (TaskKind Kind, int Day)[] due = [(TaskKind.Test, 4), (TaskKind.Skim, 6), (TaskKind.ChangeFilter, 10), (TaskKind.DrainClean, 5)];
        var work = due.Select((d, i) =>
        {
            var step = Some.Step(d.Kind, IntervalBasis.FromLastDone, intervalDays: 28, id: Some.Id(i + 1));
            return VisitWork.Of(Some.Task(d.Kind, CareSchedule.CauseOf(step.Id), CareSchedule.DueAt(new(2026, 3, d.Day), Calendar), id: i), step, window, Calendar, Today);
        }).ToList();

        var visits = VisitPlan.Of(work).Select(v => $"{v.Day:M-dd}: {string.Join(' ', v.TaskIds.Select(id => due[work.FindIndex(w => w.TaskId == id)].Kind))}");

        Assert.Equal(expected, string.Join("; ", visits));
    }

    private static IReadOnlyList<VisitWork> WorkOf(SumpWork sump) => [.. sump.Tasks.Select(t => VisitWork.Of(t.Open, t.Step, sump.Window, Calendar, Today))];

    private static string Said(IEnumerable<Visit> visits) => string.Join("; ", visits.Select(v => $"{v.Day:o} {string.Join(' ', v.TaskIds)}"));
}

/// <summary>An open task and the step behind it; none for the work of a flag.</summary>
public sealed record StepTask(OpenTask Open, CareStepFacts? Step);

/// <summary>The open work of a sump, and the window in open shop days.</summary>
public sealed record SumpWork(int Window, IReadOnlyList<StepTask> Tasks);

/// <summary>Makes work of every kind, policy and interval, late, due and far off.</summary>
public static class SumpWorks
{
    public static Arbitrary<SumpWork> Work()
    {
        var task = from kind in Gen.Elements(TaskKind.Test, TaskKind.Skim, TaskKind.ChangeFilter, TaskKind.Inspect, TaskKind.DrainClean, TaskKind.Dose)
                   from basis in Gen.Elements(IntervalBasis.CalendarAnchored, IntervalBasis.FromLastDone, IntervalBasis.AfterFill)
                   from policy in Gen.Elements(Enum.GetValues<ClosedDayPolicy>())
                   from interval in Gen.Elements(1, 2, 3, 7, 14, 28, 365)
                   from months in Gen.Frequency((4, Gen.Constant(0)), (1, Gen.Choose(1, 12)))
                   from due in Gen.Choose(-20, 45)
                   from isOfFlag in Gen.Frequency((3, Gen.Constant(false)), (1, Gen.Constant(true)))
                   select (kind, basis, policy, interval, months, due, isOfFlag);
        var work = from window in Gen.Choose(0, 6)
                   from tasks in task.ListOf()
                   select new SumpWork(window, [.. tasks.Select((t, i) => Made(i, t))]);
        return work.ToArbitrary();
    }

    private static StepTask Made(int number, (TaskKind Kind, IntervalBasis Basis, ClosedDayPolicy Policy, int Interval, int Months, int Due, bool IsOfFlag) t)
    {
        var due = CareSchedule.DueAt(new DateOnly(2026, 3, 4).AddDays(t.Due), Some.Calendar());
        if (t.IsOfFlag)
        {
            return new(Some.Task(t.Kind, $"limit:{number}", due, id: number), null);
        }

        var months = t.Basis == IntervalBasis.AfterFill ? 0 : t.Months;
        var step = Some.Step(t.Kind, t.Basis, t.Interval, new DateOnly(2026, 3, 4).AddDays(t.Due), t.Policy, Some.Id(1000 + number)) with { IntervalMonths = months };
        return new(Some.Task(t.Kind, CareSchedule.CauseOf(step.Id), due, id: number), step);
    }
}
