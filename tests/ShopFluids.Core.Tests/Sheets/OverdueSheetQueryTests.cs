using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Board;
using ShopFluids.Core.Care;
using ShopFluids.Core.People;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sheets.OverdueWork;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Sheets;

public sealed class OverdueSheetQueryTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task RunAsync_NothingOpen_HasNoGroups(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StoreAsync(Some.Reading());

        var sheet = await RunAsync(shop);

        Assert.Empty(sheet.Groups);
        Assert.Empty(sheet.Stores);
        Assert.Equal(("0 late, 0 due today", "2 Mar 2026", Texts.OverdueSheet_ByArea), (sheet.Counts, sheet.Frame.Period, sheet.Order));
    }

    // Due on the day it is asked about, then late from 06:00 of the next; what is due later is not on the list.
    [Theory]
    [EachDatabase(0, "0 late, 1 due today", false)]
    [EachDatabase(2, "1 late, 0 due today", true)]
    public async Task RunAsync_TestOfToday_IsDueThenLate(TestDatabase database, int days, string counts, bool isLate)
    {
        await using var shop = await OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        await shop.StepAsync(Some.Step(TaskKind.Skim, anchor: new DateOnly(2026, 3, 20)));
        shop.Clock.Advance(TimeSpan.FromDays(days));

        var sheet = await RunAsync(shop);

        Assert.Equal(counts, sheet.Counts);
        var group = Assert.Single(sheet.Groups);
        var task = Assert.Single(group.Tasks);
        Assert.Equal(("Turning", Some.SumpTag, "M-07 Turning centre", Texts.Board_Nobody, isLate), (group.Name, task.Sump, task.Machines, task.Other, task.Due.IsLate));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_FlaggedSump_SaysWhyWithItsVerdict(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 4.0m));

        var group = Assert.Single((await RunAsync(shop)).Groups);

        var flag = Assert.Single(group.Flags);
        Assert.Equal((Some.SumpTag, Verdict.Action, Direction.Low), (flag.Sump, flag.Verdict.Verdict, flag.Verdict.Direction));
        Assert.Contains("4.0 %", flag.Reason, StringComparison.Ordinal);
        Assert.Contains(group.Tasks, t => t.What.Contains("concentrate", StringComparison.Ordinal));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_ByPerson_SortsByWhoDoesItAndKeepsWhatNobodyWasGiven(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        var person = Some.Operator.PersonId ?? Guid.Empty;
        (await shop.Get<MakeAccountHandler>().HandleAsync(new MakeAccount(person, "karrow", "J. Karrow", "someone who works", [Roles.Operator], "light"), Actor.Program, Token)).Done();
        await shop.StepAsync(Some.Step(TaskKind.Test));
        await shop.StepAsync(Some.Step(TaskKind.Skim));
        var test = (await shop.Get<BoardQuery>().RunAsync(new BoardFilter(), Token)).Rows[0].Tasks.Single(t => t.Kind == TaskKind.Test);
        (await shop.Get<AssignTaskHandler>().HandleAsync(new AssignTask(test.Id, person), Some.Supervisor, Token)).Done();

        var groups = (await RunAsync(shop, isByPerson: true)).Groups;

        Assert.Equal(["J. Karrow", Texts.OverdueSheet_Nobody], groups.Select(g => g.Name));
        Assert.Equal("Turning", Assert.Single(groups[0].Tasks).Other);
        Assert.Single(groups[1].Tasks);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_LotInQuarantine_StandsUnderTheStoresOnceItIsDue(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        (await shop.Get<QuarantineLotHandler>().HandleAsync(new QuarantineLot(shop.LotId, "Skin on top"), Some.Supervisor, Token)).Done();
        shop.Clock.Advance(TimeSpan.FromDays(10));

        var store = Assert.Single((await RunAsync(shop)).Stores);

        Assert.Contains("L-1", store.What, StringComparison.Ordinal);
        Assert.True(store.Due.IsLate);
    }

    private static Task<ShopFixture> OpenAsync(TestDatabase database) => ShopFixture.OpenAsync(database, also: s => s.AddSingleton<BoardQuery>().AddSingleton<OverdueSheetQuery>());

    private static Task<OverdueSheet> RunAsync(ShopFixture shop, bool isByPerson = false) => shop.Get<OverdueSheetQuery>().RunAsync(isByPerson, "Sup", Token);
}
