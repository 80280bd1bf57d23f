using ShopFluids.Core.Setup;
using ShopFluids.Core.Stores;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Stores;

public sealed class LotTraceTests
{
    // The fill is ten days before the clock's start, Monday 2 March 2026.
    private static readonly DateOnly FilledOn = new(2026, 2, 20);
    private static readonly DateOnly Today = new(2026, 3, 2);

    [Theory, EachDatabase]
    public async Task OfLotAsync_FillAndAddition_NamesSumpMachineChargeAndWhatElseWentIn(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var second = await SecondLotAsync(shop);
        (await shop.AddAsync(Some.Addition(shop.LotId, water: 9, concentrate: 1))).Done();
        (await shop.AddAsync(Some.Addition(second, water: 18, concentrate: 2))).Done();

        var trace = await TraceAsync(shop, shop.LotId);

        var charge = Assert.Single(trace.Charges);
        Assert.Equal((Some.SumpTag, 1, 13m), (charge.SumpTag, charge.ChargeNumber, charge.Litres));
        Assert.Equal(["M-07"], charge.Machines);
        Assert.Null(charge.UntilUtc);
        Assert.Equal([(12m, true), (1m, false)], charge.Pours.Select(p => (p.ConcentrateLitres, p.IsFill)));
        var other = Assert.Single(charge.OtherLots);
        Assert.Equal((second, "L-2", 2m), (other.LotId, other.Number, other.Litres));
        Assert.Equal(0, trace.UnexplainedLitres);
    }

    [Theory, EachDatabase]
    public async Task OfLotAsync_Drained_WasInUntilTheDrain(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        (await shop.DrainAsync(Some.Start.AddDays(-3))).Done();

        Assert.Equal(Some.Start.AddDays(-3), Assert.Single((await TraceAsync(shop, shop.LotId)).Charges).UntilUtc);
        Assert.Single((await TraceAsync(shop, shop.LotId, from: new(2026, 2, 27))).Charges);
        Assert.Empty((await TraceAsync(shop, shop.LotId, from: new(2026, 2, 28))).Charges);
    }

    [Theory, EachDatabase]
    public async Task OfLotAsync_Days_FindChargesThatRanOnItInThem(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        Assert.Single((await TraceAsync(shop, shop.LotId, to: FilledOn)).Charges);
        Assert.Empty((await TraceAsync(shop, shop.LotId, to: FilledOn.AddDays(-1))).Charges);
        Assert.Single((await TraceAsync(shop, shop.LotId, from: Today, to: Today)).Charges);
    }

    [Theory, EachDatabase]
    public async Task OfLotAsync_AddedLater_CountsFromItsFirstPourOnly(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var second = await SecondLotAsync(shop);
        (await shop.AddAsync(Some.Addition(second))).Done();

        Assert.Empty((await TraceAsync(shop, second, to: Today.AddDays(-1))).Charges);
        Assert.Equal(Some.Start, Assert.Single((await TraceAsync(shop, second)).Charges).FirstUtc);
    }

    [Theory, EachDatabase]
    public async Task OfLotAsync_ChangedPastTheProgram_ShowsWhatNothingExplains(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        (await shop.Get<AdjustLotHandler>().HandleAsync(new(Some.Id(), shop.LotId, AdjustmentKind.Counted, 150, "Dipstick"), Some.Supervisor, TestContext.Current.CancellationToken)).Done();
        Assert.Equal(0, (await TraceAsync(shop, shop.LotId)).UnexplainedLitres);

        await RawSql.ExecuteAsync(database, """UPDATE "FluidLots" SET "RemainingLitres" = 140""");

        Assert.Equal(10, (await TraceAsync(shop, shop.LotId)).UnexplainedLitres);
    }

    [Theory, EachDatabase]
    public async Task OfLotAsync_UnknownLot_IsNull(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        Assert.Null(await shop.Get<LotTraceQuery>().OfLotAsync(Some.Id(), null, null, TestContext.Current.CancellationToken));
    }

    [Theory, EachDatabase]
    public async Task OfSumpsAsync_TheWayBack_NamesTheLotsOfEachCharge(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var second = await SecondLotAsync(shop);
        (await shop.AddAsync(Some.Addition(second, concentrate: 2))).Done();
        (await shop.DrainAsync(shop.Now)).Done();
        (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, second, at: shop.Now))).Done();

        var found = await shop.Get<LotTraceQuery>().OfSumpsAsync([shop.SumpId], null, null, TestContext.Current.CancellationToken);
        var before = await shop.Get<LotTraceQuery>().OfSumpsAsync([shop.SumpId], null, Today.AddDays(-1), TestContext.Current.CancellationToken);

        Assert.Equal([2, 1], found.Select(c => c.ChargeNumber));
        Assert.Equal([("L-1", 12m), ("L-2", 2m)], found[1].Lots.Select(l => (l.Number, l.Litres)));
        Assert.Equal([("L-2", 12m)], found[0].Lots.Select(l => (l.Number, l.Litres)));
        Assert.Equal([1], before.Select(c => c.ChargeNumber));
    }

    private static async Task<Guid> SecondLotAsync(ShopFixture shop)
    {
        var id = Some.Id();
        (await shop.Get<ReceiveLotHandler>().HandleAsync(Some.Lot(id, shop.FluidId, "L-2"), Some.Supervisor, TestContext.Current.CancellationToken)).Done();
        return id;
    }

    private static async Task<LotTrace> TraceAsync(ShopFixture shop, Guid lotId, DateOnly? from = null, DateOnly? to = null)
    {
        var trace = await shop.Get<LotTraceQuery>().OfLotAsync(lotId, from, to, TestContext.Current.CancellationToken);
        Assert.NotNull(trace);
        return trace;
    }
}
