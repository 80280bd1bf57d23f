using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Board;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;
using ShopFluids.Rules;
using ShopFluids.Rules.OverdueTest;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Board;

public sealed class BoardQueryTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task RunAsync_NothingMeasured_StandsInTheRowsAsNotMeasured(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        var board = await BoardAsync(shop);

        var row = Assert.Single(board.Rows);
        Assert.Equal(SumpState.NotMeasured, row.Standing.State);
        Assert.Equal("M-07", Assert.Single(row.Machines).Tag);
        Assert.NotNull(row.FilledAtUtc);
        Assert.Null(row.LastReadAtUtc);
        Assert.Empty(board.Quiet);
    }

    // A doubtful pH is measured again before anybody pours by what was read with it.
    [Theory, EachDatabase]
    public async Task RunAsync_MeasuredAgainAndPutRightInOneVisit_TheLookComesFirst(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 4.0m, ph: 8.4m));

        var visits = BoardVisit.Of(Assert.Single((await BoardAsync(shop)).Rows).Tasks.OrderBy(t => t.Kind == TaskKind.Test));

        var kinds = Assert.Single(visits, v => v.Tasks.Any(t => t.Kind == TaskKind.Adjust)).Tasks.Select(t => t.Kind).ToList();
        Assert.True(kinds.IndexOf(TaskKind.Test) >= 0 && kinds.IndexOf(TaskKind.Test) < kinds.IndexOf(TaskKind.Adjust), string.Join(' ', kinds));
    }

    // Of two drainings the second says that the first does it, too, unless it is too far off for that.
    [Theory]
    [EachDatabase(10, true)]
    [EachDatabase(40, false)]
    public async Task RunAsync_DrainedForAFlagAndByThePlan_SaysWhetherOneIsEnough(TestDatabase database, int plannedIn, bool isEnough)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.DrainClean, days: 30, anchor: new DateOnly(2026, 3, 2).AddDays(plannedIn)));
        await shop.StoreAsync(Some.Reading(ph: 8.4m) with { Measurements = [.. Some.Reading(ph: 8.4m).Measurements, Some.Typed(ParameterCodes.Odour, 3)] });

        var drainings = Assert.Single((await BoardAsync(shop)).Rows).Tasks.Where(t => t.Kind == TaskKind.DrainClean).ToList();

        Assert.Equal([(false, false), (true, isEnough)], drainings.Select(t => (t.IsOfPlan, t.GoesWithDraining)));
        (await shop.DrainAsync(Some.Start)).Done();
        Assert.Equal(isEnough, !await shop.ReadAsync(db => db.CareTasks.Where(t => t.Id == drainings[1].Id).AnyAsync(t => t.State == TaskState.Open, TestContext.Current.CancellationToken)));
    }

    // Once the sump is drained, nothing is left to look at.
    [Theory, EachDatabase]
    public async Task RunAsync_LookedAtAndDrainedInOneVisit_TheDrainComesLast(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(ph: 8.4m) with { Measurements = [.. Some.Reading(ph: 8.4m).Measurements, Some.Typed(ParameterCodes.Odour, 3)] });

        var visit = Assert.Single(BoardVisit.Of(Assert.Single((await BoardAsync(shop)).Rows).Tasks), v => v.Tasks.Any(t => t.Kind == TaskKind.DrainClean));

        Assert.Contains(visit.Tasks, t => t.Kind == TaskKind.Test);
        Assert.Equal(TaskKind.DrainClean, visit.Tasks[^1].Kind);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_InRangeAndNothingLate_IsQuiet(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading());

        var board = await BoardAsync(shop);

        Assert.Empty(board.Rows);
        Assert.Equal(Some.SumpTag, Assert.Single(board.Quiet).Tag);
        Assert.Equal(1, board.Counts.InRange);
    }

    // Skimming that the plan and a finding both ask for is done once, and counted once.
    [Theory, EachDatabase]
    public async Task RunAsync_SkimOfPlanLateAndOfAFlag_IsOneTaskThatSaysBoth(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Skim, days: 14));
        shop.Clock.Advance(TimeSpan.FromDays(3));
        await shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.TrampOil, 20)) with { TakenAtUtc = shop.Now });

        var board = await BoardAsync(shop);

        var task = Assert.Single(Assert.Single(board.Rows).Tasks);
        Assert.Equal(("limit:tramp-oil", false, true, true), (task.Cause, task.IsOfPlan, task.IsAlsoOfPlan, task.IsLate));
        Assert.Equal((new DateOnly(2026, 3, 2), shop.Now), (task.DueDay, task.AskedAtUtc));
        Assert.Equal(1, board.Counts.TasksLate);
    }

    // The work of a warning goes on when the sump gets worse: it is as late as it is, and says when it was asked for.
    [Theory, EachDatabase]
    public async Task RunAsync_FlagGaveWayToAWorse_TaskSaysWhenItWasAskedFor(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 6.5m));
        shop.Clock.Advance(TimeSpan.FromDays(6));
        await shop.StoreAsync(Some.Reading(brix: 4m, levelMm: null, takenAt: shop.Now));

        var row = Assert.Single((await BoardAsync(shop)).Rows);

        Assert.Equal((Verdict.Action, shop.Now), (Assert.Single(row.Flags).Severity, row.Flags[0].RaisedAtUtc));
        var task = Assert.Single(row.Tasks);
        Assert.Equal((TaskKind.Adjust, true, Some.Start), (task.Kind, task.IsLate, task.AskedAtUtc));
    }

    [Theory]
    [InlineData(0, false, true, true)]
    [InlineData(1, false, true, true)]
    [InlineData(2, false, true, false)]
    [InlineData(2, false, false, true)]
    [InlineData(-1, true, true, true)]
    public void IsPressing_PlannedWork_UntilTomorrow(int inDays, bool isLate, bool isOfPlan, bool expected)
    {
        var today = new DateOnly(2026, 3, 2);
        var task = new BoardTask(Some.Id(), TaskKind.Skim, "step:x", Some.Start, today.AddDays(inDays), isLate, isOfPlan, null, null);

        Assert.Equal(expected, task.IsPressing(today));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_ActionLimitCrossed_ShowsFlagAndAdjustmentWithRecipe(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var outcome = await shop.StoreAsync(Some.Reading(brix: 4.0m));

        var row = Assert.Single((await BoardAsync(shop)).Rows);

        Assert.Equal(new SumpStanding(SumpState.Action, Verdict.Action, Direction.Low), row.Standing);
        Assert.Equal(ParameterCodes.Concentration, Assert.Single(row.Flags).Parameter);
        var task = Assert.Single(row.Tasks);
        Assert.Equal(TaskKind.Adjust, task.Kind);
        Assert.Equal(outcome.Recipe, task.Recipe);
        Assert.False(task.IsOfPlan);
        Assert.Null(task.Who);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_EverySortOfStanding_OrdersByWhoNeedsSomebodyFirst(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await FilledAsync(shop, "S-01", 1);
        await FilledAsync(shop, "S-02", 2);
        await FilledAsync(shop, "S-03", 3);
        await shop.StepAsync(Some.Step(TaskKind.Test, "S-02"));
        await shop.StoreAsync(Some.Reading(sump: "S-02"));
        await shop.StoreAsync(Some.Reading(sump: "S-03", brix: 4.0m));
        await shop.StoreAsync(Some.Reading(sump: "S-01", brix: 6.5m));

        // The next test of S-02 falls due a week later and is then late.
        shop.Clock.Advance(TimeSpan.FromDays(9));

        var board = await BoardAsync(shop);

        Assert.Equal(["S-03", "S-02", "S-01", "S-07"], board.Rows.Select(r => r.Tag));
        Assert.Equal([SumpState.Action, SumpState.Overdue, SumpState.Warning, SumpState.NotMeasured], board.Rows.Select(r => r.Standing.State));
        Assert.Equal(1, board.Counts.Action);
        Assert.Equal(1, board.Counts.Warning);
        Assert.Equal(1, board.Counts.NotMeasured);
        Assert.Equal(0, board.Counts.InRange);
        Assert.True(board.Counts.TasksLate >= 1);
    }

    // Late by one and a half intervals goes before late by a seventh of one, though it is the later due.
    [Theory, EachDatabase]
    public async Task RunAsync_AlikeStanding_OrdersByLatenessOfTheirIntervals(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await FilledAsync(shop, "S-01", 1);
        await FilledAsync(shop, "S-02", 2);
        await shop.StepAsync(Some.Step(TaskKind.Skim, "S-01", days: 28, anchor: new DateOnly(2026, 3, 4)));
        await shop.StepAsync(Some.Step(TaskKind.Skim, "S-02", days: 2, anchor: new DateOnly(2026, 3, 5)));
        await shop.StoreAsync(Some.Reading(sump: "S-01"));
        await shop.StoreAsync(Some.Reading(sump: "S-02"));
        shop.Clock.Advance(TimeSpan.FromDays(7));

        var board = await BoardAsync(shop);

        Assert.Equal(["S-07", "S-02", "S-01"], board.Rows.Select(r => r.Tag));
        Assert.Equal([7, 1], board.Rows.Skip(1).Select(r => r.Priority.LateQuarters));
    }

    // 150 L of 8 % at 6.50 a litre are worth 78; the machine runs 80 h a week.
    [Theory, EachDatabase]
    public async Task RunAsync_Priority_WeighsTheFluidByItsLastPriceAndTheMachinesByTheirHours(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await FilledAsync(shop, "S-01", 1);
        await shop.StoreAsync(Some.Reading(levelMm: 200, sump: "S-01", brix: 6.5m));
        await shop.StoreAsync(Some.Reading(levelMm: 300, brix: 6.5m));

        var board = await BoardAsync(shop);

        Assert.Equal([new WorkPriority(HasActionFlag: false, 0, 78, 80), new WorkPriority(HasActionFlag: false, 0, 52, 80)], board.Rows.Select(r => r.Priority));
        Assert.Equal(["S-07", "S-01"], board.Rows.Select(r => r.Tag));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_WorkOfOneVisit_StandsTogetherWithItsMinutes(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        await shop.StepAsync(Some.Step(TaskKind.Skim, days: 14, anchor: new DateOnly(2026, 3, 4)));
        await shop.StepAsync(Some.Step(TaskKind.ChangeFilter, days: 28, anchor: new DateOnly(2026, 3, 10)));

        var row = Assert.Single((await BoardAsync(shop)).Rows);

        Assert.Equal([(new DateOnly(2026, 3, 2), 20), (new DateOnly(2026, 3, 10), 10)], row.Visits.Select(v => (v.Day, v.Minutes)));
        Assert.Equal([TaskKind.Test, TaskKind.Skim], row.Visits[0].Tasks.Select(t => t.Kind));
        Assert.Equal(new DateOnly(2026, 3, 4), row.Visits[0].Tasks[1].DueDay);
    }

    // What a flag asks for takes as long as the plan says of such work.
    [Theory, EachDatabase]
    public async Task RunAsync_WorkOfAFlag_HasTheMinutesOfItsKind(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Skim, days: 90, anchor: new DateOnly(2026, 5, 4)));

        await shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.TrampOil, 20)));

        Assert.Equal(10, Assert.Single((await BoardAsync(shop)).Rows).Tasks.First(t => t is { Kind: TaskKind.Skim, IsOfPlan: false }).Minutes);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_TestLateAndNoticed_StaysOverdueAndIsNoWarning(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        await shop.StoreAsync(Some.Reading());
        shop.Clock.Advance(TimeSpan.FromDays(9));
        await shop.Get<Core.Flags.NoticeOverdueHandler>().HandleAsync(Token);

        var row = Assert.Single((await BoardAsync(shop)).Rows);

        Assert.Equal(SumpState.Overdue, row.Standing.State);
        Assert.Equal(OverdueTestRule.Code, Assert.Single(row.Flags).Rule);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_DayStrip_ShowsSevenShopDaysFromTodayWithClosedOnes(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        var days = (await BoardAsync(shop)).Days;

        Assert.Equal(7, days.Count);
        Assert.Equal(new DateOnly(2026, 3, 2), days[0].Day);
        Assert.Equal([new DateOnly(2026, 3, 7), new DateOnly(2026, 3, 8)], days.Where(d => !d.IsOpen).Select(d => d.Day));
    }

    // The strip shows seven days; a closure that begins in it is said to its end.
    [Theory, EachDatabase]
    public async Task RunAsync_ClosureLongerThanTheStrip_IsSaidToItsLastDay(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database, also: s => s.AddSingleton<PlanShutdownHandler>());
        Assert.Equal(new ClosedDays(new(2026, 3, 7), new(2026, 3, 8)), (await BoardAsync(shop)).NextClosure);

        (await shop.Get<PlanShutdownHandler>().HandleAsync(new(Some.Id(), null, new(2026, 3, 4), new(2026, 3, 19), "Works holiday"), Some.Supervisor, Token)).Done();

        Assert.Equal(new ClosedDays(new(2026, 3, 4), new(2026, 3, 19)), (await BoardAsync(shop)).NextClosure);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_BeforeTheShopDayBegins_TodayIsTheDayBefore(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        // 04:00 in Berlin; the shop day begins at 06:00.
        shop.Clock.Advance(TimeSpan.FromHours(20));

        Assert.Equal(new DateOnly(2026, 3, 2), (await BoardAsync(shop)).Days[0].Day);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_WorkGivenToAPerson_NamesThemAndCanBeFilteredByThem(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var person = Some.Id();
        (await shop.Get<Core.People.MakeAccountHandler>().HandleAsync(
            new Core.People.MakeAccount(person, "karrow", "J. Karrow", "long enough to pass", [Core.People.Roles.Operator], "light"), Some.Supervisor, Token)).Done();
        await FilledAsync(shop, "S-01", 1);
        var outcome = await shop.StoreAsync(Some.Reading(brix: 4.0m));
        await shop.StoreAsync(Some.Reading(sump: "S-01", brix: 4.0m));
        (await shop.Get<AssignTaskHandler>().HandleAsync(new AssignTask(outcome.Made[0].Id, person), Some.Supervisor, Token)).Done();

        var all = await BoardAsync(shop);
        var theirs = await BoardAsync(shop, new BoardFilter(PersonId: person));

        Assert.Equal(["J. Karrow"], all.People.Select(p => p.Name));
        Assert.Equal(2, all.Rows.Count);
        var row = Assert.Single(theirs.Rows);
        Assert.Equal(Some.SumpTag, row.Tag);
        Assert.Equal("J. Karrow", Assert.Single(row.Tasks).Who?.Name);
        Assert.Equal(2, theirs.Counts.Action);
    }

    // On 2 March the board shows the days up to 8 March.
    [Theory]
    [EachDatabase(8, true)]
    [EachDatabase(9, false)]
    public async Task RunAsync_FilteredByKind_ShowsQuietSumpsWithSuchWorkInItsDays(TestDatabase database, int day, bool isShown)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Skim, anchor: new DateOnly(2026, 3, day)));
        await shop.StoreAsync(Some.Reading());

        Assert.Equal(isShown ? 1 : 0, (await BoardAsync(shop, new BoardFilter(Kind: TaskKind.Skim))).Rows.Count);
        Assert.Empty((await BoardAsync(shop, new BoardFilter(Kind: TaskKind.ChangeFilter))).Rows);
        var quiet = Assert.Single((await BoardAsync(shop)).Quiet);
        Assert.Equal(day - 2, quiet.DaysToNext);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_FilteredByArea_CountsThatAreaOnly(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var other = Some.Id();
        (await shop.Get<AddAreaHandler>().HandleAsync(new AddArea(other, "Grinding", 2), Some.Supervisor, Token)).Done();
        await shop.SumpAsync(Some.Sump(Some.Id(), other, "S-20", "M-20"));

        var board = await BoardAsync(shop, new BoardFilter(AreaId: other));

        Assert.Equal("S-20", Assert.Single(board.Rows).Tag);
        Assert.Null(board.Rows[0].FilledAtUtc);
        Assert.Equal(1, board.Counts.NotMeasured);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_OpenWork_IsTheSameAsOfTheSumpAlone(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        await shop.StoreAsync(Some.Reading(brix: 4.0m, ph: 8.4m));

        var row = Assert.Single((await BoardAsync(shop)).Rows);
        var open = await new OpenWorkQuery(shop.Get<ShopDatabase>(), shop.Get<SetupCache>(), shop.Get<ShopClock>()).RunAsync(shop.SumpId, Token);

        Assert.Equal(row.Flags.Select(f => f.Id), open.Flags.Select(f => f.Id));
        Assert.Equal(row.Tasks.Select(t => t.Id), open.Tasks.Select(t => t.Id));
        Assert.True(open.Tasks.Count >= 2);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_NothingRecordedSince_IsShared(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var query = Query(shop);
        var first = await query.RunAsync(new BoardFilter(), Token);
        shop.Clock.Advance(BoardQuery.Holds - TimeSpan.FromSeconds(1));

        Assert.Same(first, await query.RunAsync(new BoardFilter(), Token));
        Assert.NotSame(first, await query.RunAsync(new BoardFilter(AreaId: shop.AreaId), Token));

        shop.Clock.Advance(TimeSpan.FromSeconds(1));
        var later = await query.RunAsync(new BoardFilter(), Token);
        Assert.Equal(first.AtUtc + BoardQuery.Holds, later.AtUtc);
    }

    // Also by another instance: what tells is the record, not the news of this one.
    [Theory, EachDatabase]
    public async Task RunAsync_SomethingRecordedSince_IsReadAnew(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var query = Query(shop);
        var first = await query.RunAsync(new BoardFilter(), Token);
        await shop.StoreAsync(Some.Reading(brix: 4.0m));

        var next = await query.RunAsync(new BoardFilter(), Token);

        Assert.Equal((SumpState.NotMeasured, SumpState.Action), (first.Rows[0].Standing.State, next.Rows[0].Standing.State));
    }

    // What was not changed is not read again; what was is, each kind of row by itself.
    [Theory, EachDatabase]
    public async Task RunAsync_OneRowChangedAfterAnother_IsShownAsItIsNow(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await FilledAsync(shop, "S-01", 1);
        await shop.StoreAsync(Some.Reading(brix: 4.0m));
        await shop.StoreAsync(Some.Reading(brix: 4.0m, sump: "S-01"));
        var query = Query(shop);
        var before = await query.RunAsync(new BoardFilter(), Token);
        var (task, flag) = (before.Rows.Single(r => r.Tag == "S-07").Tasks.Single(t => t.Kind == TaskKind.Adjust), before.Rows.Single(r => r.Tag == "S-07").Flags[0]);

        (await shop.Get<EndTaskHandler>().HandleAsync(new EndTask(task.Id, TaskState.Skipped, "tomorrow"), Some.Supervisor, isSupervisor: true, Token)).Done();
        Assert.DoesNotContain((await RowAsync("S-07")).Tasks, t => t.Kind == TaskKind.Adjust);
        Assert.Equal(flag.Id, (await RowAsync("S-07")).Flags[0].Id);

        (await shop.Get<CloseFlagHandler>().HandleAsync(new CloseFlag(flag.Id, "known"), Some.Supervisor, Token)).Done();
        Assert.DoesNotContain((await RowAsync("S-07")).Flags, f => f.Id == flag.Id);

        await shop.StoreAsync(Some.Reading(brix: 8.0m, sump: "S-01", takenAt: Some.Start.AddMinutes(1)));
        Assert.Equal(Verdict.InRange, (await RowAsync("S-01")).Standing.Verdict);
        Assert.Empty((await RowAsync("S-01")).Flags);

        async Task<BoardRow> RowAsync(string tag)
        {
            var board = await query.RunAsync(new BoardFilter(), Token);
            return board.Rows.Concat(board.Quiet).Single(r => r.Tag == tag);
        }
    }

    // Clocks step back: a board of the future is not shown.
    [Theory, EachDatabase]
    public async Task RunAsync_ClockSteppedBack_IsReadAnew(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var query = Query(shop);
        var first = await query.RunAsync(new BoardFilter(), Token);
        shop.Clock.AdjustTime(shop.Clock.GetUtcNow().AddMinutes(-5));

        Assert.Equal(first.AtUtc.AddMinutes(-5), (await query.RunAsync(new BoardFilter(), Token)).AtUtc);
    }

    private static BoardQuery Query(ShopFixture shop) => new(shop.Get<ShopDatabase>(), shop.Get<SetupCache>(), shop.Get<ShopClock>());

    private static Task<ShopBoard> BoardAsync(ShopFixture shop, BoardFilter? filter = null) => Query(shop).RunAsync(filter ?? new BoardFilter(), Token);

    private static async Task FilledAsync(ShopFixture shop, string tag, int walkOrder)
    {
        await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, tag, tag.Replace('S', 'M'), walkOrder: walkOrder));
        (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, tag))).Done();
    }
}
