using ShopFluids.Core.Board;
using ShopFluids.Core.People.Stations;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Board;

public sealed class WallQueryTests
{
    private static readonly Guid North = Some.Id();
    private static readonly Guid South = Some.Id();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(0)]
    [InlineData(6)]
    public void Of_AllFitOnOneScreen_IsOneTurn(int rows)
    {
        var turn = Assert.Single(WallTurns.Of(Rows(rows, 0), [North, South]));

        Assert.Equal((null, rows, 0), (turn.AreaId, turn.Rows.Count, turn.Others.Count));
    }

    [Fact]
    public void Of_MoreThanFit_ShowsTheWorstThenEachAreaInParts()
    {
        var turns = WallTurns.Of(Rows(7, 2), [South, North]);

        Assert.Equal(
            [(null, 1, 1, 6, 3), (South, 1, 1, 2, 0), (North, 1, 2, 6, 1), (North, 2, 2, 1, 6)],
            turns.Select(t => (t.AreaId, t.Part, t.Parts, t.Rows.Count, t.Others.Count)));
        Assert.Equal(["N0", "N1", "N2", "N3", "N4", "N5"], turns[0].Rows.Select(r => r.Tag));
        Assert.Equal(["N6"], turns[3].Rows.Select(r => r.Tag));
    }

    // An area where all is well takes no time of the screen.
    [Fact]
    public void Of_AreaWithoutRows_HasNoTurn() => Assert.DoesNotContain(WallTurns.Of(Rows(8, 0), [North, South]), t => t.AreaId == South);

    [Theory]
    [EachDatabase(29, 0, false)]
    [EachDatabase(31, 0, true)]
    [EachDatabase(60 * 25, 0, false)]
    [EachDatabase(60 * 25, 2, true)]
    public async Task Run_StationSilent_IsNamedWhileReadingsMayWaitThere(TestDatabase database, int minutes, int unsent, bool isNamed)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var offered = (await shop.Get<SetUpStationsHandler>().HandleAsync(new AddStation(Some.Id(), "South", "", "shop"), Some.Supervisor, Stop)).Done();
        var enrolled = (await shop.Get<EnrolStationHandler>().HandleAsync(new EnrolStation(offered.Code), Stop)).Done();
        await NoteAsync(shop, enrolled.Id, unsent);
        var seen = shop.Now;
        shop.Clock.Advance(TimeSpan.FromMinutes(minutes));

        var silent = (await QueryOf(shop).RunAsync(null, Stop)).Silent;

        Assert.Equal(isNamed ? [new SilentStation("South", seen, unsent)] : [], silent);
    }

    [Theory, EachDatabase]
    public async Task Run_OneArea_ShowsItAlone(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var other = Some.Id();
        (await shop.Get<AddAreaHandler>().HandleAsync(new AddArea(other, "Milling", 2), Some.Supervisor, Stop)).Done();
        await shop.SumpAsync(Some.Sump(Some.Id(), other, "S-20", "M-20"));

        Assert.Equal(["S-07", "S-20"], (await QueryOf(shop).RunAsync(null, Stop)).Turns[0].Rows.Select(r => r.Tag).Order(StringComparer.Ordinal));
        Assert.Equal(["S-20"], (await QueryOf(shop).RunAsync(other, Stop)).Turns[0].Rows.Select(r => r.Tag));
    }

    private static WallQuery QueryOf(ShopFixture shop) => new(
        new BoardQuery(shop.Get<Core.Database.ShopDatabase>(), shop.Get<SetupCache>(), shop.Get<ShopClock>()),
        shop.Get<StationsQuery>(),
        shop.Get<ShopClock>());

    private static Task NoteAsync(ShopFixture shop, Guid stationId, int unsent) =>
        shop.Get<NoteContactHandler>().HandleAsync(new NoteContact(stationId, unsent, unsent > 0 ? TimeSpan.FromMinutes(5) : null, shop.Now), Stop);

    private static List<BoardRow> Rows(int north, int south) => [.. Enumerable.Range(0, north).Select(n => Row($"N{n}", North)), .. Enumerable.Range(0, south).Select(n => Row($"S{n}", South))];

    private static BoardRow Row(string tag, Guid area) => new(Some.Id(), tag, area, [], SumpStanding.Of(null, Some.Start), null, null, [], []);
}
