using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Care;

/// <summary>Invariants 7 and 8: one open task, ended once, its next planned once.</summary>
public sealed class EndTaskTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    // Anchored on Monday 2 March: the series does not move. From last done: the day it was done and seven more.
    [Theory]
    [EachDatabase(IntervalBasis.CalendarAnchored, "2026-03-10T05:00:00Z")]
    [EachDatabase(IntervalBasis.FromLastDone, "2026-03-12T05:00:00Z")]
    public async Task HandleAsync_DoneTwoDaysLate_PlansNextByItsBasis(TestDatabase database, IntervalBasis basis, string next)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Skim, basis: basis));
        var first = await OpenTaskAsync(shop);
        Assert.Equal(new DateTime(2026, 3, 3, 5, 0, 0, DateTimeKind.Utc), first.DueAtUtc);
        shop.Clock.Advance(TimeSpan.FromDays(2));

        (await EndAsync(shop, first.Id)).Done();

        var planned = await OpenTaskAsync(shop);
        Assert.Equal(next, planned.DueAtUtc.ToString("yyyy-MM-ddTHH:mm:ssZ", System.Globalization.CultureInfo.InvariantCulture));
        var ended = await shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.Id == first.Id));
        Assert.Equal((TaskState.Done, (DateTime?)shop.Now, Some.Operator.PersonId), (ended.State, ended.EndedAtUtc, ended.EndedByPersonId));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_SecondPress_IsTheSameAct(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Skim));
        var task = await OpenTaskAsync(shop);
        var first = (await EndAsync(shop, task.Id)).Done();
        var before = await shop.FootprintAsync();
        shop.Clock.Advance(TimeSpan.FromMinutes(1));

        Assert.Equal(first, (await EndAsync(shop, task.Id)).Done());
        Assert.Equal(new TaskEndedAlready(task.Id, TaskState.Done, first.EndedAtUtc), (await EndAsync(shop, task.Id, TaskState.Skipped, "Changed my mind")).Refused());
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_ManyPressesAtOnce_PlanOneNext(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var other = shop.Another();
        await shop.StepAsync(Some.Step(TaskKind.Skim));
        var task = await OpenTaskAsync(shop);

        await Task.WhenAll(Enumerable.Range(0, 16).Select(n => Task.Run(async () => (await EndAsync(n % 2 == 0 ? shop : other, task.Id)).Done())));

        Assert.Equal(2, await shop.CountAsync<CareTask>());
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_Skip_NeedsAReasonAndPlansNext(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.ChangeFilter, days: 30));
        var task = await OpenTaskAsync(shop);

        Assert.Equal(new FieldError("reason", FieldProblem.Missing), (await EndAsync(shop, task.Id, TaskState.Skipped, " ")).Field());
        Assert.Equal(new FieldError("reason", FieldProblem.TooLong, 501, 1, 500), (await EndAsync(shop, task.Id, TaskState.Skipped, new string('x', 501))).Field());
        (await EndAsync(shop, task.Id, TaskState.Skipped, " No filter in stores ")).Done();

        var ended = await shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.Id == task.Id));
        Assert.Equal((TaskState.Skipped, "No filter in stores"), (ended.State, ended.EndReason));
        Assert.NotEqual(task.Id, (await OpenTaskAsync(shop)).Id);
    }

    // Of a test the record needs what was measured, of an adjustment what was poured.
    [Theory]
    [EachDatabase(TaskKind.Test)]
    [EachDatabase(TaskKind.Adjust)]
    public async Task HandleAsync_TestOrAdjustmentDone_IsRefusedAndChangesNothing(TestDatabase database, TaskKind kind)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        await shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.Concentration, 4)));
        var task = await shop.ReadAsync(db => db.CareTasks.FirstAsync(t => t.Kind == kind && t.State == TaskState.Open));
        var before = await shop.FootprintAsync();

        Assert.Equal(new NotTickedOff(task.Id, kind), (await EndAsync(shop, task.Id)).Refused());

        Assert.Equal(before, await shop.FootprintAsync());
        (await EndAsync(shop, task.Id, TaskState.Skipped, "Machine is sold")).Done();
    }

    // A charge that stands in the sump was not drained, whatever is ticked.
    [Theory, EachDatabase]
    public async Task HandleAsync_DrainingDone_IsRefusedUntilTheSumpIsDrained(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.DrainClean));
        var task = await shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.Kind == TaskKind.DrainClean));
        var before = await shop.FootprintAsync();

        Assert.Equal(new NotTickedOff(task.Id, TaskKind.DrainClean), (await EndAsync(shop, task.Id)).Refused());
        Assert.Equal(before, await shop.FootprintAsync());

        (await shop.DrainAsync(shop.Now)).Done();
        Assert.Equal(TaskState.Done, (await shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.Id == task.Id))).State);
    }

    // Of a dose the record needs what was put in.
    [Theory, EachDatabase]
    public async Task HandleAsync_DoseDone_IsRefusedAndMayBeSkipped(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Dose));
        var task = await shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.Kind == TaskKind.Dose));

        Assert.Equal(new NotTickedOff(task.Id, TaskKind.Dose), (await EndAsync(shop, task.Id)).Refused());

        (await EndAsync(shop, task.Id, TaskState.Skipped, "Count is at zero")).Done();
    }

    // Only a reading closes a flag: whoever ends its work without one leaves it with nothing to do.
    [Theory, EachDatabase]
    public async Task HandleAsync_AdjustmentSkippedFlagOpen_TestFallsDueToday(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var outcome = await shop.StoreAsync(Some.Reading(brix: 4.0m));
        shop.Clock.Advance(TimeSpan.FromMinutes(5));

        (await EndAsync(shop, Assert.Single(outcome.Made).Id, TaskState.Skipped, "Next shift")).Done();

        var test = await OpenTaskAsync(shop);
        Assert.Equal((TaskKind.Test, "limit:concentration", null, outcome.ReadingId), (test.Kind, test.Cause, test.StepId, test.ReadingId));
        Assert.Equal(new DateTime(2026, 3, 3, 5, 0, 0, DateTimeKind.Utc), test.DueAtUtc);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory]
    [EachDatabase(8.0, 0)]
    [EachDatabase(4.0, 1)]
    public async Task HandleAsync_TestAfterTheAdjustment_IsDoneByTheNextReading(TestDatabase database, double brix, int adjustments)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var outcome = await shop.StoreAsync(Some.Reading(brix: 4.0m));
        (await EndAsync(shop, outcome.Made[0].Id, TaskState.Skipped, "Next shift")).Done();
        var test = await OpenTaskAsync(shop);
        shop.Clock.Advance(TimeSpan.FromMinutes(30));

        var after = await shop.StoreAsync(Some.Reading(brix: (decimal)brix, takenAt: shop.Now));

        Assert.Equal(test.Id, Assert.Single(after.Done).Id);
        Assert.Equal(adjustments, await shop.ReadAsync(db => db.CareTasks.CountAsync(t => t.State == TaskState.Open)));
        Assert.Equal(adjustments, after.Made.Count(t => t.Kind == TaskKind.Adjust));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // The reading that raised the flag was a slip: the test that hangs on it goes with it.
    [Theory, EachDatabase]
    public async Task HandleAsync_ReadingCorrectedAfterwards_WithdrawsTheTest(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var outcome = await shop.StoreAsync(Some.Reading(brix: 4.0m));
        (await EndAsync(shop, outcome.Made[0].Id, TaskState.Skipped, "Next shift")).Done();

        await shop.StoreAsync(Some.Reading(supersedes: outcome.ReadingId, reason: "Read 8, typed 4"));

        Assert.Equal(0, await shop.ReadAsync(db => db.CareTasks.CountAsync(t => t.State == TaskState.Open)));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_OperatorSkipsDrainingAtAction_IsRefusedASupervisorMay(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var outcome = await shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.Bacteria, 6)));
        var drain = Assert.Single(outcome.Made);
        Assert.Equal(TaskKind.DrainClean, drain.Kind);
        var before = await shop.FootprintAsync();

        Assert.Equal(new OnlyASupervisorSkips(drain.Id), (await EndAsync(shop, drain.Id, TaskState.Skipped, "No time")).Refused());
        Assert.Equal(before, await shop.FootprintAsync());

        (await shop.Get<EndTaskHandler>().HandleAsync(new EndTask(drain.Id, TaskState.Skipped, "Drained on Friday anyway"), Some.Supervisor, isSupervisor: true, Stop)).Done();
        var open = await OpenTaskAsync(shop);
        Assert.Equal((TaskKind.Test, "limit:bacteria"), (open.Kind, open.Cause));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // Skimmed once, for the plan and for what was found: both end, and the plan goes on. Two shop days ahead is the same visit, three is not.
    [Theory]
    [EachDatabase(0, true)]
    [EachDatabase(3, true)]
    [EachDatabase(-2, true)]
    [EachDatabase(-3, false)]
    public async Task HandleAsync_SkimOfPlanAndOfAFlag_EndTogetherWhenOfOneVisit(TestDatabase database, int daysLate, bool isTogether)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Skim, days: 14, anchor: new DateOnly(2026, 3, 2).AddDays(daysLate < 0 ? -daysLate : 0)));
        shop.Clock.Advance(TimeSpan.FromDays(Math.Max(0, daysLate)));
        var outcome = await shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.TrampOil, 20)) with { TakenAtUtc = shop.Now });

        (await EndAsync(shop, Assert.Single(outcome.Made).Id)).Done();

        var skims = await shop.ReadAsync(db => db.CareTasks.Where(t => t.Kind == TaskKind.Skim).ToListAsync());
        Assert.Equal(isTogether ? 2 : 1, skims.Count(t => t.State == TaskState.Done));
        Assert.Equal(isTogether, skims.Exists(t => t.State == TaskState.Done && t.StepId is not null));
        Assert.NotNull(Assert.Single(skims, t => t.State == TaskState.Open).StepId);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_UnknownTask_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        Assert.IsType<TaskNotFound>((await EndAsync(shop, Some.Id())).Refused());
        await Assert.ThrowsAsync<ArgumentException>(() => EndAsync(shop, Some.Id(), TaskState.Withdrawn));
    }

    // A test of the plan is done by the reading that measures all it asks for, and by no other.
    [Theory]
    [EachDatabase(9.0, true)]
    [EachDatabase(null, false)]
    public async Task Record_TestOfThePlan_IsDoneByAReadingOfAllItsParameters(TestDatabase database, double? ph, bool isDone)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        var test = await OpenTaskAsync(shop);

        var outcome = await shop.StoreAsync(Some.Reading(ph: (decimal?)ph));

        Assert.Equal(isDone ? [test.Id] : [], outcome.Done.Select(t => t.Id));
        Assert.Equal(isDone ? 2 : 1, await shop.CountAsync<CareTask>());
        Assert.Equal(isDone ? new DateTime(2026, 3, 10, 5, 0, 0, DateTimeKind.Utc) : test.DueAtUtc, outcome.NextTestDueAtUtc);
        var stored = await shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.Id == test.Id));
        Assert.Equal(isDone ? outcome.ReadingId : null, stored.EndedByReadingId);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // Invariant 7, by the database itself.
    [Theory, EachDatabase]
    public async Task Database_SecondOpenTaskOfOneCause_IsRefusedByItsIndex(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Skim));
        var task = await OpenTaskAsync(shop);
        await using var write = await shop.Get<ShopDatabase>().WriteAsync(Stop);
        write.Database.Add(new CareTask(Some.Id(), shop.SumpId, task.Kind, task.Cause, task.StepId, Some.Start, Some.Start, null, null));

        await Assert.ThrowsAsync<DbUpdateException>(() => write.FlushAsync(Stop));
    }

    [Theory, EachDatabase]
    public async Task StopCareStep_WithdrawsItsTaskAndPlansNoOther(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var step = await shop.StepAsync(Some.Step(TaskKind.Test));
        var task = await OpenTaskAsync(shop);

        (await shop.Get<StopCareStepHandler>().HandleAsync(new StopCareStep(step.Id), Some.Supervisor, Stop)).Done();
        await shop.StoreAsync(Some.Reading());

        Assert.Equal(TaskState.Withdrawn, await shop.ReadAsync(db => db.CareTasks.Where(t => t.Id == task.Id).Select(t => t.State).SingleAsync()));
        Assert.Equal(1, await shop.CountAsync<CareTask>());
        Assert.IsType<StepNotFound>((await shop.Get<StopCareStepHandler>().HandleAsync(new StopCareStep(Some.Id()), Some.Supervisor, Stop)).Refused());
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task AddCareStep_EmptySump_PlansWithTheFill(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database, isFilled: false);
        await shop.StepAsync(Some.Step(TaskKind.Skim));
        Assert.Equal(0, await shop.CountAsync<CareTask>());

        (await shop.FillAsync(Some.Fill(shop.ChargeId, shop.FluidId, shop.LotId))).Done();

        Assert.Equal(1, await shop.CountAsync<CareTask>());
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task Assign_OpenTask_KeepsThePersonAndRefusesStrangers(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Skim));
        var task = await OpenTaskAsync(shop);
        var person = Some.Id();
        (await shop.Get<Core.People.MakeAccountHandler>().HandleAsync(new(person, "op1", "Op One", "ten signs and more", [Core.People.Roles.Operator], "light"), Some.Supervisor, Stop)).Done();
        var handler = shop.Get<AssignTaskHandler>();

        Assert.Equal(new FieldError("person", FieldProblem.UnknownChoice), (await handler.HandleAsync(new AssignTask(task.Id, Some.Id()), Some.Supervisor, Stop)).Field());
        Assert.IsType<TaskNotFound>((await handler.HandleAsync(new AssignTask(Some.Id(), person), Some.Supervisor, Stop)).Refused());
        (await handler.HandleAsync(new AssignTask(task.Id, person), Some.Supervisor, Stop)).Done();
        Assert.Equal(person, (await OpenTaskAsync(shop)).AssignedToId);
        (await handler.HandleAsync(new AssignTask(task.Id, null), Some.Supervisor, Stop)).Done();
        Assert.Null((await OpenTaskAsync(shop)).AssignedToId);
        (await EndAsync(shop, task.Id)).Done();
        Assert.IsType<TaskEndedAlready>((await handler.HandleAsync(new AssignTask(task.Id, person), Some.Supervisor, Stop)).Refused());
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    private static Task<Result<EndedTask>> EndAsync(ShopFixture shop, Guid id, TaskState state = TaskState.Done, string? reason = null) =>
        shop.Get<EndTaskHandler>().HandleAsync(new EndTask(id, state, reason), Some.Operator, isSupervisor: false, Stop);

    private static Task<CareTask> OpenTaskAsync(ShopFixture shop) => shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.State == TaskState.Open));
}
