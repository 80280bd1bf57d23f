using ShopFluids.Core.Record;
using ShopFluids.Core.Record.Trail;
using ShopFluids.Core.Wording.Trail;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Record;

public sealed class TrailQueryTests
{
    [Theory, EachDatabase]
    public async Task RunAsync_NoFilter_TellsEveryEntryNewestFirst(TestDatabase database)
    {
        await using var shop = await BusyShop.OpenAsync(database);

        var page = await FindAsync(shop, new());

        Assert.Equal(await shop.CountAsync<RecordEntry>(), page.Found);
        Assert.Equal(page.Found, page.All);
        Assert.Equal(page.Entries.Select(e => e.Sequence).OrderDescending(), page.Entries.Select(e => e.Sequence));
        Assert.Equal(page.All, page.Entries[0].Sequence);
        Assert.Equal(page.HeadHash, page.Entries[0].Hash);
        Assert.All(page.Entries, e => Assert.NotNull(e.Rows));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_MoreThanOnePage_GoesOnWithoutGapOrRepeat(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        for (var i = 0; i < TrailQuery.PageSize; i++)
        {
            await shop.StoreAsync(Some.Reading(takenAt: shop.Now.AddMinutes(i - 100)));
        }

        var first = await FindAsync(shop, new());
        var second = await FindAsync(shop, new(Before: first.Next));

        Assert.Equal(TrailQuery.PageSize, first.Entries.Count);
        Assert.Equal(first.Entries[^1].Sequence - 1, second.Entries[0].Sequence);
        Assert.Equal(1, second.Entries[^1].Sequence);
        Assert.Null(second.Next);
        Assert.Equal(first.Found, second.Found);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_Filters_FindOnlyWhatFits(TestDatabase database)
    {
        await using var shop = await BusyShop.OpenAsync(database);
        var today = new DateOnly(2026, 3, 2);

        Assert.Equal(0, (await FindAsync(shop, new(From: today.AddDays(1)))).Found);
        Assert.Equal(0, (await FindAsync(shop, new(To: today.AddDays(-1)))).Found);
        Assert.NotEqual(0, (await FindAsync(shop, new(From: today, To: today))).Found);
        var operatorOne = Assert.Single((await FindAsync(shop, new())).Actors, a => a.Name == "Op One").Key;
        var atStation = Assert.Single((await FindAsync(shop, new(Who: operatorOne))).Entries);
        Assert.Equal(("Op One", "South"), (atStation.Actor, atStation.Station));
        var program = await FindAsync(shop, new(Who: Actor.Program.Name));
        Assert.NotEqual(0, program.Found);
        Assert.All(program.Entries, e => Assert.Equal(Actor.Program.Name, e.Actor));
        Assert.Equal(1, (await FindAsync(shop, new(What: ActCodes.ReadingCorrected))).Found);
        Assert.NotEqual(0, (await FindAsync(shop, new(About: " s-0"))).Found);
        Assert.Equal(0, (await FindAsync(shop, new(About: "no-such-tag"))).Found);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_NewAndChangedRows_TellBeforeAndAfterWithNames(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(ph: 9.1m));
        (await shop.AddAsync(Some.Addition(shop.LotId))).Done();

        var page = await FindAsync(shop, new());

        var stored = page.Entries.Single(e => e.Code == ActCodes.ReadingStored).Rows!;
        var ph = Assert.Single(stored, r => r.Entity == "Measurement" && r.Key.Contains(":ph:", StringComparison.Ordinal));
        Assert.Equal(RowChangeKind.Made, ph.Kind);
        Assert.Equal(new CellChange("Value", null, "9.1"), ph.Cells.Single(c => c.Column == "Value"));
        var lot = Assert.Single(page.Entries.Single(e => e.Code == ActCodes.AdditionStored).Rows!, r => r.Entity == "FluidLot");
        Assert.Equal(RowChangeKind.Changed, lot.Kind);
        var remaining = lot.Cells.Single(c => c.Column == "RemainingLitres");
        Assert.True(decimal.Parse(remaining.Before!, System.Globalization.CultureInfo.InvariantCulture) > decimal.Parse(remaining.After!, System.Globalization.CultureInfo.InvariantCulture));
        Assert.Equal(Some.SumpTag, page.Names[shop.SumpId]);
        Assert.Equal($"{Some.SumpTag} / 1", page.Names[shop.ChargeId]);
        Assert.Equal(ColumnKind.Instant, page.Columns.Of("Reading", "TakenAtUtc").Kind);
        Assert.Equal(ColumnKind.Document, page.Columns.Of("Reading", "Outcome").Kind);
        Assert.Equal(ColumnKind.Text, page.Columns.Of("Reading", "no longer there").Kind);
    }

    [Theory, EachDatabase("no json"), EachDatabase("[1]"), EachDatabase("[{\"entity\":\"Sump\",\"key\":\"x\"}]")]
    public async Task RunAsync_EntryChangedByHand_IsShownAsUnreadable(TestDatabase database, string changes)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await RawSql.ExecuteAsync(database, $"""UPDATE "RecordEntries" SET "Changes" = '{changes}' WHERE "Sequence" = 1""");

        Assert.Null((await FindAsync(shop, new())).Entries[^1].Rows);
    }

    [Theory, EachDatabase]
    public async Task AllAsync_Filter_TellsTheSameEntriesFirstOneFirst(TestDatabase database)
    {
        await using var shop = await BusyShop.OpenAsync(database);
        var filter = new TrailFilter(What: ActCodes.SetupChanged);

        var all = new List<long>();
        await foreach (var entry in shop.Get<TrailQuery>().AllAsync(filter, TestContext.Current.CancellationToken))
        {
            all.Add(entry.Entry.Sequence);
        }

        Assert.Equal((await FindAsync(shop, filter)).Entries.Select(e => e.Sequence).Reverse(), all);
        Assert.NotEmpty(all);
    }

    [Fact]
    public async Task Words_EveryActKindOfRowAndColumn_HasItsOwn()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = ShopFixture.Empty(database);
        var columns = await shop.ReadAsync(db => Task.FromResult(new TrailColumns(db.Model)));

        var acts = typeof(ActCodes).GetFields().Select(f => (string)f.GetRawConstantValue()!).ToList();
        Assert.All(acts, a => Assert.True(RecordActWords.Has(a), a));
        Assert.Equal(acts.Count, RecordActWords.All.Count);
        Assert.NotEmpty(columns.All);
        Assert.All(columns.All, c => Assert.True(RecordRowWords.Has(c.Entity), c.Entity));
        Assert.All(columns.All.Where(c => TrailColumns.IsShown(c.Column)), c => Assert.True(RecordColumnWords.Has(c.Column), $"{c.Entity}.{c.Column}"));
    }

    private static Task<TrailPage> FindAsync(ShopFixture shop, TrailFilter filter) => shop.Get<TrailQuery>().RunAsync(filter, TestContext.Current.CancellationToken);
}
