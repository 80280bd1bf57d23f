using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Board;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record.Replay;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Rules.Shutdowns;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Care.Shutdowns;

/// <summary>Days on which a machine or the shop stands. <see cref="Some.Start"/> is Monday, 2 March 2026, 08:00 in Berlin; weekends are closed.</summary>
public sealed class ShutdownTests
{
    private static readonly DateOnly First = new(2026, 3, 16);
    private static readonly DateOnly Last = new(2026, 3, 29);

    [Theory, EachDatabase]
    public async Task Plan_Shop_MakesTheWorkOfEverySumpAndClosesTheDays(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading());

        var planned = (await PlanAsync(shop)).Done();

        Assert.Equal(3, planned.Tasks);
        Assert.Equal([(TaskKind.Skim, new DateOnly(2026, 3, 13)), (TaskKind.Circulate, new DateOnly(2026, 3, 16)), (TaskKind.Test, new DateOnly(2026, 3, 30))], await OpenAsync(shop));
        Assert.False((await shop.SetupAsync()).Calendar.IsOpen(First));
        Assert.True((await shop.SetupAsync()).Calendar.IsOpen(new DateOnly(2026, 3, 30)));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task Plan_OneSump_ClosesTheDaysOfThatSumpAlone(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        (await PlanAsync(shop, Some.SumpTag)).Done();

        var setup = await shop.SetupAsync();
        Assert.Equal((true, false), (setup.Calendar.IsOpen(First), setup.CalendarFor(shop.SumpId).IsOpen(First)));
    }

    // Due today, and nobody is there from today on: on the first open day.
    [Theory, EachDatabase]
    public async Task Plan_WorkThatAFlagAskedForFallsIntoIt_IsMovedOutOfIt(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 6.5m));
        Assert.Equal((TaskKind.Adjust, new DateOnly(2026, 3, 2)), Assert.Single(await OpenAsync(shop)));

        (await HandleAsync(shop, new(Some.Id(), null, new(2026, 3, 2), new(2026, 3, 13), "Burst pipe"))).Done();

        Assert.Contains((TaskKind.Adjust, new DateOnly(2026, 3, 16)), await OpenAsync(shop));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory]
    [EachDatabase(ClosedDayPolicy.Earlier, "2026-03-13")]
    [EachDatabase(ClosedDayPolicy.Later, "2026-03-30")]
    [EachDatabase(ClosedDayPolicy.AsIs, "2026-03-16")]
    public async Task Plan_WorkOfThePlanFallsIntoIt_IsMovedByThePolicyOfItsStep(TestDatabase database, ClosedDayPolicy policy, string day)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.ChangeFilter, anchor: First, closedDays: policy));

        (await PlanAsync(shop)).Done();

        var expected = DateOnly.Parse(day, System.Globalization.CultureInfo.InvariantCulture);
        Assert.Contains((TaskKind.ChangeFilter, expected), await OpenAsync(shop));
    }

    [Theory, EachDatabase]
    public async Task Plan_SameAgain_IsTheSameShutdown(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var command = new PlanShutdown(Some.Id(), null, First, Last, "Works holiday");
        (await HandleAsync(shop, command)).Done();
        var tasks = await shop.CountAsync<CareTask>();

        (await HandleAsync(shop, command)).Done();

        Assert.Equal((1, tasks), (await shop.CountAsync<Shutdown>(), await shop.CountAsync<CareTask>()));
        Assert.IsType<OtherContentForId>((await HandleAsync(shop, command with { LastDay = Last.AddDays(1) })).Error);
    }

    [Theory]
    [EachDatabase("2026-01-30", "2026-03-10", "firstDay")]
    [EachDatabase("2027-03-04", "2027-03-10", "firstDay")]
    [EachDatabase("2026-03-16", "2026-03-15", "lastDay")]
    [EachDatabase("2026-02-20", "2026-03-01", "lastDay")]
    [EachDatabase("2026-03-16", "2027-03-17", "lastDay")]
    public async Task Plan_DayOutOfRange_NamesTheFieldAndTheDaysAccepted(TestDatabase database, string first, string last, string field)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var culture = System.Globalization.CultureInfo.InvariantCulture;

        var errors = Assert.IsType<FieldErrors>((await HandleAsync(shop, new(Some.Id(), null, DateOnly.Parse(first, culture), DateOnly.Parse(last, culture), "Holiday"))).Error);

        var error = Assert.Single(errors.Fields);
        Assert.Equal((field, FieldProblem.DayOutOfRange), (error.Field, error.Problem));
        Assert.NotNull(error.FirstDay);
        Assert.NotNull(error.LastDay);
        Assert.Equal(0, await shop.CountAsync<Shutdown>());
    }

    [Theory, EachDatabase]
    public async Task Plan_DaysOfAnother_NamesIt(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        (await PlanAsync(shop)).Done();

        Assert.Equal(new ShutdownsOverlap(First, Last), (await HandleAsync(shop, new(Some.Id(), null, Last, Last.AddDays(3), "More"))).Error);
        (await HandleAsync(shop, new(Some.Id(), null, Last.AddDays(1), Last.AddDays(3), "More"))).Done();
    }

    [Theory, EachDatabase]
    public async Task Plan_NoReason_IsRefusedAtTheReason(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        var errors = Assert.IsType<FieldErrors>((await HandleAsync(shop, new(Some.Id(), null, First, Last, "  "))).Error);

        Assert.Equal("reason", Assert.Single(errors.Fields).Field);
    }

    [Theory, EachDatabase]
    public async Task EndTask_CirculatedWhileStanding_IsPlannedAgainUntilTheLastDay(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        (await PlanAsync(shop)).Done();
        var days = new List<DateOnly>();
        while (await CirculationAsync(shop) is { } task)
        {
            var calendar = (await shop.SetupAsync()).Calendar;
            days.Add(CareSchedule.DueDayOf(task.DueAtUtc, calendar));
            shop.Clock.SetUtcNow(new DateTimeOffset(calendar.StartOf(days[^1]).AddHours(2)));
            (await shop.Get<EndTaskHandler>().HandleAsync(new EndTask(task.Id, TaskState.Done), Some.Operator, isSupervisor: false, TestContext.Current.CancellationToken)).Done();
        }

        // Last moved on Friday the 13th: the week-end before counts.
        Assert.Equal([new(2026, 3, 16), new(2026, 3, 19), new(2026, 3, 22), new(2026, 3, 25), new(2026, 3, 28)], days);
    }

    [Theory, EachDatabase]
    public async Task End_NotBegun_IsWithdrawnWithItsWork(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var planned = (await PlanAsync(shop)).Done();

        (await EndAsync(shop, planned.Id)).Done();

        Assert.Empty(await OpenAsync(shop));
        Assert.True((await shop.SetupAsync()).Calendar.IsOpen(First));
        Assert.Equal(new ShutdownIsOver(planned.Id), (await EndAsync(shop, planned.Id)).Error);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task End_Standing_EndedYesterdayAndTheTestIsDueToday(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var planned = (await PlanAsync(shop)).Done();
        shop.Clock.SetUtcNow(new DateTimeOffset(2026, 3, 19, 9, 0, 0, TimeSpan.Zero));

        (await EndAsync(shop, planned.Id)).Done();

        Assert.Equal([(TaskKind.Test, new DateOnly(2026, 3, 19))], await OpenAsync(shop));
        Assert.Equal(new DateOnly(2026, 3, 18), Assert.Single((await shop.SetupAsync()).Shutdowns).LastDay);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // A machine stands from the 13th to the 16th, the shop from the 16th to the 29th: one standing of 17 days, planned once.
    [Theory, EachDatabase]
    public async Task Plan_ShopOutlastsTheMachinesOwn_PlansTheWholeStandingOnce(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading());
        (await HandleAsync(shop, new(Some.Id(), Some.SumpTag, new(2026, 3, 13), First, "Spindle"))).Done();

        (await PlanAsync(shop)).Done();

        Assert.Equal([(TaskKind.Skim, new DateOnly(2026, 3, 12)), (TaskKind.Circulate, new DateOnly(2026, 3, 15)), (TaskKind.Test, new DateOnly(2026, 3, 30))], await OpenAsync(shop));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task Plan_MachineWithinTheShops_AsksForNothingMore(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading());
        (await PlanAsync(shop)).Done();
        var before = await OpenAsync(shop);

        var own = (await HandleAsync(shop, new(Some.Id(), Some.SumpTag, First.AddDays(2), First.AddDays(4), "Spindle"))).Done();

        Assert.Equal(0, own.Tasks);
        Assert.Equal(before, await OpenAsync(shop));
    }

    // The shop's shutdown took over the machine's work; when it does not take place, the machine still stands.
    [Theory, EachDatabase]
    public async Task End_AnotherStillStands_ItsWorkIsAskedForAgain(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading());
        (await HandleAsync(shop, new(Some.Id(), Some.SumpTag, new(2026, 3, 13), First, "Spindle"))).Done();
        var before = await OpenAsync(shop);
        var holiday = (await PlanAsync(shop)).Done();

        (await EndAsync(shop, holiday.Id)).Done();

        Assert.Equal(before, await OpenAsync(shop));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task End_WorkOfThePlanWasMoved_GoesBackToItsDay(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.ChangeFilter, anchor: First, closedDays: ClosedDayPolicy.Later));
        var planned = (await PlanAsync(shop)).Done();
        Assert.Contains((TaskKind.ChangeFilter, new DateOnly(2026, 3, 30)), await OpenAsync(shop));

        (await EndAsync(shop, planned.Id)).Done();

        Assert.Equal([(TaskKind.ChangeFilter, First)], await OpenAsync(shop));
    }

    [Theory, EachDatabase]
    public async Task Drain_ShutdownAhead_LeavesItsWork(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        (await PlanAsync(shop)).Done();
        var planned = await OpenAsync(shop);
        shop.Clock.Advance(TimeSpan.FromHours(1));

        (await shop.DrainAsync(shop.Now)).Done();

        Assert.Equal(planned, await OpenAsync(shop));
    }

    [Theory, EachDatabase]
    public async Task Replay_ReadingsBeforeAndAfterAMoveOfDueDays_GivesTheSameAnswers(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test, anchor: First, closedDays: ClosedDayPolicy.Later));
        await shop.StoreAsync(Some.Reading());
        (await PlanAsync(shop)).Done();
        shop.Clock.SetUtcNow(new DateTimeOffset(2026, 3, 30, 9, 0, 0, TimeSpan.Zero));
        var outcome = await shop.StoreAsync(Some.Reading(takenAt: shop.Now));

        Assert.Contains(outcome.Done, t => ShutdownWork.IsAfter(t.Cause));
        var report = await shop.Get<ReplayQuery>().RunAsync(TestContext.Current.CancellationToken);
        Assert.Equal(2, report.Readings);
        Assert.Empty(report.Differences);
    }

    // The plan's skimming of Thursday the 12th and its test of Monday the 30th serve the shutdown, which wants them on the 13th and the 30th.
    [Theory, EachDatabase]
    public async Task Plan_ThePlanAsksForTheSameWorkNearby_IsOneTaskThatEndsAsOne(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Skim, basis: IntervalBasis.FromLastDone, anchor: new(2026, 3, 12)));
        await shop.StepAsync(Some.Step(TaskKind.Test, anchor: First, closedDays: ClosedDayPolicy.Later));
        await shop.StoreAsync(Some.Reading());
        var planned = (await PlanAsync(shop)).Done();
        Assert.Equal(5, (await OpenAsync(shop)).Count);
        var test = await shop.ReadAsync(db => db.CareTasks.Where(t => t.Kind == TaskKind.Test && t.StepId != null && t.State == TaskState.Open).Select(t => t.Cause).SingleAsync());

        var board = (await new OpenWorkQuery(shop.Get<ShopDatabase>(), shop.Get<SetupCache>(), shop.Get<ShopClock>()).RunAsync(shop.SumpId, TestContext.Current.CancellationToken)).Tasks;

        Assert.Equal(
            [(TaskKind.Skim, ShutdownWork.BeforeOf(planned.Id), new DateOnly(2026, 3, 12)), (TaskKind.Circulate, ShutdownWork.DuringOf(planned.Id), First), (TaskKind.Test, test, new DateOnly(2026, 3, 30))],
            board.Select(t => (t.Kind, t.Cause, t.DueDay)));
        (await shop.Get<EndTaskHandler>().HandleAsync(new EndTask(board[0].Id, TaskState.Done), Some.Operator, isSupervisor: false, TestContext.Current.CancellationToken)).Done();
        var skim = Assert.Single(await shop.ReadAsync(db => db.CareTasks.Where(t => t.Kind == TaskKind.Skim && t.State == TaskState.Open).ToListAsync()));
        Assert.NotNull(skim.StepId);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task End_WorkOfThePlanServedIt_StaysWithThePlan(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Skim, basis: IntervalBasis.FromLastDone, anchor: new(2026, 3, 12)));
        var planned = (await PlanAsync(shop)).Done();

        (await EndAsync(shop, planned.Id)).Done();

        Assert.Equal([(TaskKind.Skim, new DateOnly(2026, 3, 12))], await OpenAsync(shop));
        Assert.Empty(await WorkAsync(shop, planned.Id));
    }

    [Theory, EachDatabase]
    public async Task Work_Planned_IsListedByPhaseUntilItIsOver(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Skim, basis: IntervalBasis.FromLastDone, anchor: new(2026, 3, 12)));
        await shop.StoreAsync(Some.Reading());
        var planned = (await PlanAsync(shop)).Done();

        var work = Assert.Single(await WorkAsync(shop, planned.Id));

        Assert.Equal(Some.SumpTag, work.SumpTag);
        Assert.Equal(
            [(ShutdownPhase.Before, TaskKind.Skim, new DateOnly(2026, 3, 12), true), (ShutdownPhase.During, TaskKind.Circulate, First, false), (ShutdownPhase.After, TaskKind.Test, new DateOnly(2026, 3, 30), false)],
            work.Tasks.Select(t => (t.Phase, t.Kind, t.DueDay, t.IsAlsoOfPlan)));
        (await shop.Get<EndTaskHandler>().HandleAsync(new EndTask(work.Tasks[0].TaskId, TaskState.Done), Some.Operator, isSupervisor: false, TestContext.Current.CancellationToken)).Done();
        Assert.Equal(TaskState.Done, Assert.Single(await WorkAsync(shop, planned.Id)).Tasks[0].State);
    }

    // The recipe that is open for the flag holds for the adjustment before the shutdown too.
    [Theory, EachDatabase]
    public async Task Plan_AnAdjustmentIsOpen_TheRecipeGoesAlong(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 6.5m));
        var open = Assert.Single(await shop.ReadAsync(db => db.CareTasks.Where(t => t.Kind == TaskKind.Adjust).ToListAsync()));

        var planned = (await PlanAsync(shop)).Done();

        var adjust = Assert.Single(Assert.Single(await WorkAsync(shop, planned.Id)).Tasks, t => t.Kind == TaskKind.Adjust);
        Assert.NotNull(open.Recipe);
        Assert.Equal(open.Recipe, adjust.Recipe);
    }

    private static async Task<List<SumpShutdownWork>> WorkAsync(ShopFixture shop, Guid id) => [.. (await shop.Get<ShutdownWorkQuery>().RunAsync(TestContext.Current.CancellationToken))[id]];

    private static Task<Result<PlannedShutdown>> PlanAsync(ShopFixture shop, string? tag = null) => HandleAsync(shop, new(Some.Id(), tag, First, Last, "Works holiday"));

    private static Task<Result<PlannedShutdown>> HandleAsync(ShopFixture shop, PlanShutdown command) => shop.Get<PlanShutdownHandler>().HandleAsync(command, Some.Supervisor, TestContext.Current.CancellationToken);

    private static Task<Result<Saved>> EndAsync(ShopFixture shop, Guid id) => shop.Get<EndShutdownHandler>().HandleAsync(new EndShutdown(id), Some.Supervisor, TestContext.Current.CancellationToken);

    private static Task<CareTask?> CirculationAsync(ShopFixture shop) => shop.ReadAsync(db => db.CareTasks.FirstOrDefaultAsync(t => t.Kind == TaskKind.Circulate && t.State == TaskState.Open));

    private static async Task<List<(TaskKind Kind, DateOnly Day)>> OpenAsync(ShopFixture shop)
    {
        var calendar = (await shop.SetupAsync()).Calendar;
        var tasks = await shop.ReadAsync(db => db.CareTasks.Where(t => t.State == TaskState.Open).OrderBy(t => t.DueAtUtc).ToListAsync());
        return tasks.ConvertAll(t => (t.Kind, CareSchedule.DueDayOf(t.DueAtUtc, calendar)));
    }
}
