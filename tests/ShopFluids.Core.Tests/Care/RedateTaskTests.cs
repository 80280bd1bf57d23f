using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Board;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.People;
using ShopFluids.Core.Record;
using ShopFluids.Core.Record.Replay;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Slides;
using ShopFluids.Core.Time;
using ShopFluids.Rules;
using ShopFluids.Rules.OverdueTest;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Care;

/// <summary>Work is given another day with a reason: both days stay in the history, and one task stays open.</summary>
public sealed class RedateTaskTests
{
    private static readonly DateOnly Day = new(2026, 3, 12);

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task HandleAsync_OpenTask_IsAskedForAnewOnTheDay(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Skim));
        var task = await OpenAsync(shop);

        var redated = (await RedateAsync(shop, task.Id, " Belt is on order ")).Done();

        var (was, now) = (await shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.Id == task.Id)), await OpenAsync(shop));
        Assert.Equal((TaskState.Withdrawn, "Belt is on order", Some.Supervisor.PersonId), (was.State, was.EndReason, was.EndedByPersonId));
        Assert.Equal((redated.TaskId, new DateTime(2026, 3, 13, 5, 0, 0, DateTimeKind.Utc)), (now.Id, now.DueAtUtc));
        Assert.Equal((task.Cause, task.StepId, task.CreatedAtUtc, task.Id), (now.Cause, now.StepId, now.CreatedAtUtc, now.InsteadOfId));
        Assert.Equal(ActCodes.TaskRedated, await shop.ReadAsync(db => db.RecordEntries.OrderByDescending(e => e.Sequence).Select(e => e.Code).FirstAsync()));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    // A test is due today; the skimming that waits for a belt is not brought forward to it.
    [Theory, EachDatabase]
    public async Task HandleAsync_OtherWorkIsDueBefore_IsNotDoneInThatVisit(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        await shop.StepAsync(Some.Step(TaskKind.Skim));
        var skim = await shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.Kind == TaskKind.Skim));
        var board = new OpenWorkQuery(shop.Get<ShopDatabase>(), shop.Get<SetupCache>(), shop.Get<ShopClock>());
        Assert.Single((await board.RunAsync(shop.SumpId, Stop)).Tasks.Select(t => t.VisitsOn).Distinct());
        var tomorrow = DateOnly.FromDateTime(shop.Now).AddDays(1);

        (await RedateAsync(shop, skim.Id, day: tomorrow)).Done();

        Assert.Equal([tomorrow.AddDays(-1), tomorrow], (await board.RunAsync(shop.SumpId, Stop)).Tasks.Select(t => t.VisitsOn));
    }

    // Anchored on Mondays: done after its new day, the series goes on as it was.
    [Theory, EachDatabase]
    public async Task HandleAsync_ThenDone_TheNextComesOnce(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Skim));
        (await RedateAsync(shop, (await OpenAsync(shop)).Id)).Done();
        shop.Clock.Advance(TimeSpan.FromDays(10));

        (await shop.Get<EndTaskHandler>().HandleAsync(new EndTask((await OpenAsync(shop)).Id, TaskState.Done), Some.Operator, isSupervisor: false, Stop)).Done();

        Assert.Equal(new DateTime(2026, 3, 17, 5, 0, 0, DateTimeKind.Utc), (await OpenAsync(shop)).DueAtUtc);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_GivenToSomebody_StaysTheirs(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Skim));
        var person = Some.Id();
        (await shop.Get<MakeAccountHandler>().HandleAsync(new MakeAccount(person, "smith", "S. Mith", "works on the shop floor", [Roles.Operator], "light"), Actor.Program, Stop)).Done();
        var task = await OpenAsync(shop);
        (await shop.Get<AssignTaskHandler>().HandleAsync(new AssignTask(task.Id, person), Some.Supervisor, Stop)).Done();

        (await RedateAsync(shop, task.Id)).Done();

        Assert.Equal(person, (await OpenAsync(shop)).AssignedToId);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_LateTest_EndsTheFlagForIt(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        shop.Clock.Advance(TimeSpan.FromDays(2));
        await shop.Get<NoticeOverdueHandler>().HandleAsync(Stop);
        Assert.Equal(1, await OpenFlagsAsync(shop));

        (await RedateAsync(shop, (await OpenAsync(shop)).Id)).Done();

        Assert.Equal(0, await OpenFlagsAsync(shop));
        await shop.StoreAsync(Some.Reading(takenAt: shop.Now));
        Assert.Empty((await shop.VerifyAsync()).Findings);
        Assert.Empty((await shop.Get<ReplayQuery>().RunAsync(Stop)).Differences);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_BadInputEndedOrUnknown_IsRefusedAndStoresNothing(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Skim));
        var task = await OpenAsync(shop);
        var before = await shop.FootprintAsync();
        var today = new DateOnly(2026, 3, 2);

        Assert.Equal(new FieldError("dueDay", FieldProblem.DayOutOfRange, FirstDay: today, LastDay: today.AddDays(366)), (await RedateAsync(shop, task.Id, day: today.AddDays(-1))).Field());
        Assert.Equal(["dueDay", "reason"], (await RedateAsync(shop, task.Id, " ", today.AddDays(367))).Fields().Select(e => e.Field));
        Assert.Equal(before, await shop.FootprintAsync());
        var unknown = Some.Id();
        Assert.Equal(new TaskNotFound(unknown), (await RedateAsync(shop, unknown)).Refused());
        (await RedateAsync(shop, task.Id)).Done();
        Assert.IsType<TaskEndedAlready>((await RedateAsync(shop, task.Id)).Refused());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_DipSlide_KeepsItsDay(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        (await shop.Get<StartSlideHandler>().HandleAsync(new StartSlide(Some.Id(), Some.SumpTag, ParameterCodes.Bacteria, SlideIncubation.Room, shop.Now), Some.Operator, Stop)).Done();
        var slide = await OpenAsync(shop);

        Assert.Equal(new SlideKeepsItsDay(slide.Id), (await RedateAsync(shop, slide.Id)).Refused());
    }

    // The plan's day would be another: somebody has chosen this one.
    [Theory, EachDatabase]
    public async Task EndShutdown_DayThatWasChosen_Stays(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Skim));
        var redated = (await RedateAsync(shop, (await OpenAsync(shop)).Id)).Done();
        var shutdown = Some.Id();
        (await shop.Get<PlanShutdownHandler>().HandleAsync(new PlanShutdown(shutdown, Some.SumpTag, new DateOnly(2026, 4, 6), new DateOnly(2026, 4, 8), "Spindle repair"), Some.Supervisor, Stop)).Done();

        (await shop.Get<EndShutdownHandler>().HandleAsync(new EndShutdown(shutdown), Some.Supervisor, Stop)).Done();

        Assert.Equal(redated.DueAtUtc, (await shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.Id == redated.TaskId))).DueAtUtc);
    }

    private static Task<CareTask> OpenAsync(ShopFixture shop) => shop.ReadAsync(db => db.CareTasks.SingleAsync(t => t.State == TaskState.Open));

    private static Task<int> OpenFlagsAsync(ShopFixture shop) => shop.ReadAsync(db => db.Flags.CountAsync(f => f.Rule == OverdueTestRule.Code && f.EndedAtUtc == null));

    private static Task<Result<RedatedTask>> RedateAsync(ShopFixture shop, Guid taskId, string reason = "Belt is on order", DateOnly? day = null) =>
        shop.Get<RedateTaskHandler>().HandleAsync(new RedateTask(taskId, day ?? Day, reason), Some.Supervisor, Stop);
}
