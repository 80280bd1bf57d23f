using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Board;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Rounds;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Rounds;

public sealed class SkipStopsTests
{
    private const string Second = "S-30";
    private const string Third = "S-31";

    private static async Task<ShopFixture> OpenAsync(TestDatabase database)
    {
        var shop = await ShopFixture.OpenAsync(database, also: s => s.AddSingleton<RoundPageQuery>().AddSingleton<BoardQuery>());
        await shop.StepAsync(Some.Step(TaskKind.Test));
        return shop;
    }

    private static async Task FilledAsync(ShopFixture shop, string tag, string machineTag, int walkOrder)
    {
        await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, tag, machineTag, walkOrder: walkOrder));
        (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, tag))).Done();
        await shop.StepAsync(Some.Step(TaskKind.Test, tag));
    }

    private static Task<Result<StopsSkipped>> SkipAsync(ShopFixture shop, SkipReason? reason = SkipReason.MachineRunning, string words = "", params string[] tags) =>
        shop.Get<SkipStopsHandler>().HandleAsync(new SkipStops(Some.Id(), tags.Length == 0 ? [Some.SumpTag] : tags, reason, words), Some.Operator, default);

    private static Task<Result<StopsSkipped>> SendAsync(ShopFixture shop, SkipStops command) => shop.Get<SkipStopsHandler>().HandleAsync(command, Some.Operator, default);

    private static Task<RoundPage> RoundAsync(ShopFixture shop) => shop.Get<RoundPageQuery>().RunAsync(default);

    [Theory, EachDatabase]
    public async Task HandleAsync_SumpDue_IsRecordedAndLeavesItsTestOpen(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);

        (await SkipAsync(shop, words: " Long part ")).Done();

        var kept = await shop.ReadAsync(db => db.SkippedStops.SingleAsync());
        Assert.Equal((shop.SumpId, new DateOnly(2026, 3, 2), SkipReason.MachineRunning, "Long part"), (kept.SumpId, kept.Day, kept.Reason, kept.Words));
        Assert.Equal((shop.Now, Some.Operator.PersonId), (kept.SkippedAtUtc, kept.PersonId));
        Assert.Equal(TaskState.Open, (await shop.ReadAsync(db => db.CareTasks.SingleAsync())).State);
        var entry = await shop.ReadAsync(db => db.RecordEntries.OrderByDescending(e => e.Sequence).FirstAsync());
        Assert.Equal((ActCodes.StopSkipped, Some.Operator.PersonId), (entry.Code, entry.ActorId));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_SumpSkipped_RoundAndBoardSayWhyAndTheNextComesFirst(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await FilledAsync(shop, Second, "M-30", walkOrder: 99);

        (await SkipAsync(shop, SkipReason.Other, "Chip bin in the way")).Done();
        var page = await RoundAsync(shop);
        var row = (await shop.Get<BoardQuery>().RunAsync(new BoardFilter(), TestContext.Current.CancellationToken)).Rows;

        Assert.Equal([Second], page.Due.Select(s => s.Place.Tag));
        Assert.Equal(("S-07", "Chip bin in the way"), (Assert.Single(page.Skipped).Place.Tag, page.Skipped[0].Skip?.Words));
        Assert.Empty(page.Read);
        Assert.Contains(row, r => r.Tag == Some.SumpTag && r.Skip?.Reason == SkipReason.Other);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_NextShopDay_SumpIsDueAgain(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        (await SkipAsync(shop)).Done();

        shop.Clock.Advance(TimeSpan.FromDays(1));
        var page = await RoundAsync(shop);

        Assert.Equal("S-07", Assert.Single(page.Due).Place.Tag);
        Assert.Empty(page.Skipped);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_ReadAfterwards_CountsAsRead(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        (await SkipAsync(shop)).Done();
        shop.Clock.Advance(TimeSpan.FromMinutes(5));

        await shop.StoreAsync(Some.Reading(takenAt: shop.Now));
        var page = await RoundAsync(shop);

        Assert.Equal("S-07", Assert.Single(page.Read).Place.Tag);
        Assert.Empty(page.Skipped);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_SaidTwice_IsKeptOnceAndAnotherReasonReplacesIt(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        (await SkipAsync(shop)).Done();
        var before = await shop.FootprintAsync();

        (await SkipAsync(shop)).Done();
        Assert.Equal(before, await shop.FootprintAsync());

        shop.Clock.Advance(TimeSpan.FromMinutes(5));
        (await SkipAsync(shop, SkipReason.CouldNotReach)).Done();
        Assert.Equal(SkipReason.CouldNotReach, Assert.Single((await RoundAsync(shop)).Skipped).Skip?.Reason);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_SentAgain_IsKeptOnceAlsoAfterSomebodySaidAnotherThing(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await FilledAsync(shop, Second, "M-30", walkOrder: 99);
        var first = new SkipStops(Some.Id(), [Some.SumpTag, Second], SkipReason.MachineRunning, "");
        (await SendAsync(shop, first)).Done();
        shop.Clock.Advance(TimeSpan.FromMinutes(1));
        (await SkipAsync(shop, SkipReason.CouldNotReach)).Done();
        var before = await shop.FootprintAsync();

        var again = (await SendAsync(shop, first with { Words = " " })).Done();
        var other = (await SendAsync(shop, first with { Reason = SkipReason.CouldNotReach })).Error;

        Assert.Equal([Some.SumpTag, Second], again.Skipped);
        Assert.Equal(first.Id, Assert.IsType<OtherContentForId>(other).Id);
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_WaitedOnATablet_StandsAtTheTimeAndDayItWasSaid(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        var said = shop.Now;
        shop.Clock.Advance(TimeSpan.FromDays(1));

        (await SendAsync(shop, new SkipStops(Some.Id(), [Some.SumpTag], SkipReason.MachineRunning, "", said))).Done();

        var kept = await shop.ReadAsync(db => db.SkippedStops.SingleAsync());
        Assert.Equal((said, new DateOnly(2026, 3, 2)), (kept.SkippedAtUtc, kept.Day));
        Assert.Empty((await RoundAsync(shop)).Skipped);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_WaitedAndReadMeanwhile_IsKeptAndTheReadingAnswersIt(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        var said = shop.Now;
        shop.Clock.Advance(TimeSpan.FromMinutes(5));
        await shop.StoreAsync(Some.Reading(takenAt: shop.Now));
        shop.Clock.Advance(TimeSpan.FromMinutes(5));

        (await SendAsync(shop, new SkipStops(Some.Id(), [Some.SumpTag], SkipReason.MachineRunning, "", said))).Done();
        var nothing = (await SendAsync(shop, new SkipStops(Some.Id(), [Some.SumpTag], SkipReason.MachineRunning, "", shop.Now.AddMinutes(-1)))).Error;

        Assert.IsType<NothingToSkip>(nothing);
        Assert.Equal(said, (await shop.ReadAsync(db => db.SkippedStops.SingleAsync())).SkippedAtUtc);
        var page = await RoundAsync(shop);
        Assert.Equal(Some.SumpTag, Assert.Single(page.Read).Place.Tag);
        Assert.Null(page.Read[0].Skip);
    }

    [Fact]
    public void IdAt_SameAnswerAtTwoSumps_AreTwoIdsThatSortByTheAnswersTime()
    {
        var (answer, one, two) = (Guid.CreateVersion7(new DateTimeOffset(2026, 3, 2, 8, 0, 0, TimeSpan.Zero)), Some.Id(), Some.Id());

        Assert.Equal(SkippedStop.IdAt(answer, one), SkippedStop.IdAt(answer, one));
        Assert.NotEqual(SkippedStop.IdAt(answer, one), SkippedStop.IdAt(answer, two));
        Assert.Equal((answer.ToString()[..13], 7, 8), (SkippedStop.IdAt(answer, one).ToString()[..13], SkippedStop.IdAt(answer, one).Version, SkippedStop.IdAt(answer, one).Variant & 0xc));
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_AllThatAreLeft_OneReasonStandsAtEachWithAnActOfItsOwn(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await FilledAsync(shop, Second, "M-30", walkOrder: 98);
        await FilledAsync(shop, Third, "M-31", walkOrder: 99);
        await shop.StoreAsync(Some.Reading());

        var done = (await SkipAsync(shop, SkipReason.Other, "Shift ended", Some.SumpTag, Second, Third)).Done();

        Assert.Equal([Second, Third], done.Skipped);
        Assert.Equal([Some.SumpTag], done.NotDue);
        Assert.Equal([Second, Third], await shop.ReadAsync(db => db.RecordEntries.Where(e => e.Code == ActCodes.StopSkipped).OrderBy(e => e.Sequence).Select(e => e.Subject).ToListAsync()));
        Assert.Empty((await RoundAsync(shop)).Due);
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_NothingDue_IsRefusedAndStoresNothing(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StoreAsync(Some.Reading());
        var before = await shop.FootprintAsync();

        Assert.IsType<NothingToSkip>((await SkipAsync(shop)).Error);
        Assert.Equal("S-99", Assert.IsType<SumpNotFound>((await SkipAsync(shop, tags: ["S-99"])).Error).Tag);
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_WithoutReasonOrWords_NamesTheField(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);

        Assert.Equal([(SkipStopsHandler.ReasonField, FieldProblem.Missing)], await FaultsAsync(null, ""));
        Assert.Equal([(SkipStopsHandler.WordsField, FieldProblem.Missing)], await FaultsAsync(SkipReason.Other, " "));
        Assert.Equal([(SkipStopsHandler.ReasonField, FieldProblem.UnknownChoice)], await FaultsAsync((SkipReason)9, ""));
        Assert.Equal([(SkipStopsHandler.WordsField, FieldProblem.TooLong)], await FaultsAsync(SkipReason.MachineRunning, new string('x', SkippedStop.MaximumWordsLength + 1)));

        async Task<IEnumerable<(string, FieldProblem)>> FaultsAsync(SkipReason? reason, string words) =>
            Assert.IsType<FieldErrors>((await SkipAsync(shop, reason, words)).Error).Fields.Select(f => (f.Field, f.Problem));
    }

    [Theory, EachDatabase]
    public async Task NextAfter_SumpsPassedBy_ComeAfterThoseAhead(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await FilledAsync(shop, Second, "M-30", walkOrder: 98);
        await FilledAsync(shop, Third, "M-31", walkOrder: 99);
        var page = await RoundAsync(shop);
        var ids = page.All.ToDictionary(s => s.Place.Tag, s => s.Place.SumpId);

        Assert.Equal(Third, page.NextAfter(ids[Second])?.Place.Tag);
        Assert.Equal(Some.SumpTag, page.NextAfter(ids[Third])?.Place.Tag);
        (await SkipAsync(shop)).Done();
        Assert.Equal(Second, (await RoundAsync(shop)).NextAfter(ids[Third])?.Place.Tag);
    }
}
