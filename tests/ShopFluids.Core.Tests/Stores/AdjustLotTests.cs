using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Stores;
using ShopFluids.Core.Tuning;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Stores;

public sealed class AdjustLotTests
{
    private const decimal Received = 200;
    private const decimal Filled = 12;

    [Theory, EachDatabase]
    public async Task HandleAsync_Counted_SetsWhatRemainsAndKeepsBoth(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        (await AdjustAsync(shop, AdjustmentKind.Counted, 150.5m)).Done();

        Assert.Equal(150.5m, await RemainingAsync(shop));
        var kept = await shop.ReadAsync(db => db.LotAdjustments.SingleAsync());
        Assert.Equal((AdjustmentKind.Counted, Received - Filled, 150.5m, "Dipstick"), (kept.Kind, kept.BeforeLitres, kept.AfterLitres, kept.Reason));
        Assert.Equal(ActCodes.LotCounted, await shop.ReadAsync(db => db.RecordEntries.OrderByDescending(e => e.Sequence).Select(e => e.Code).FirstAsync()));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_Discarded_LeavesNothingWhateverWasTyped(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        (await AdjustAsync(shop, AdjustmentKind.Discarded, 77)).Done();

        Assert.Equal(0, await RemainingAsync(shop));
        Assert.Equal(ActCodes.LotDiscarded, await shop.ReadAsync(db => db.RecordEntries.OrderByDescending(e => e.Sequence).Select(e => e.Code).FirstAsync()));
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_SameIdAgain_IsOneAdjustment(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var id = Some.Id();

        (await AdjustAsync(shop, AdjustmentKind.Counted, 100, id: id)).Done();
        (await AdjustAsync(shop, AdjustmentKind.Counted, 100, id: id)).Done();
        var other = await AdjustAsync(shop, AdjustmentKind.Counted, 90, id: id);

        Assert.IsType<OtherContentForId>(other.Error);
        Assert.Equal(1, await shop.CountAsync<LotAdjustment>());
        Assert.Equal(100, await RemainingAsync(shop));
    }

    [Theory]
    [EachDatabase(-0.1, "Dipstick", "countedLitres")]
    [EachDatabase(200.1, "Dipstick", "countedLitres")]
    [EachDatabase(100, " ", "reason")]
    public async Task HandleAsync_BadInput_NamesTheFieldAndStoresNothing(TestDatabase database, double litres, string reason, string field)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var before = await shop.FootprintAsync();

        var result = await AdjustAsync(shop, AdjustmentKind.Counted, (decimal)litres, reason);

        var error = Assert.Single(Assert.IsType<FieldErrors>(result.Error).Fields);
        Assert.Equal(field, error.Field);
        if (field == "countedLitres")
        {
            Assert.Equal((0m, Received), (error.Low, error.High));
        }

        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory]
    [EachDatabase(0)]
    [EachDatabase(200)]
    public async Task HandleAsync_AtTheEndsOfTheRange_IsAccepted(TestDatabase database, double litres)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        (await AdjustAsync(shop, AdjustmentKind.Counted, (decimal)litres)).Done();

        Assert.Equal((decimal)litres, await RemainingAsync(shop));
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_NothingNewOrUnknownLot_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        Assert.IsType<NothingChanged>((await AdjustAsync(shop, AdjustmentKind.Counted, Received - Filled)).Error);
        Assert.IsType<LotNotFound>((await shop.Get<AdjustLotHandler>().HandleAsync(new(Some.Id(), Some.Id(), AdjustmentKind.Counted, 1, "x"), Some.Supervisor, TestContext.Current.CancellationToken)).Error);
    }

    private static Task<Result<Saved>> AdjustAsync(ShopFixture shop, AdjustmentKind kind, decimal litres, string reason = "Dipstick", Guid? id = null) =>
        shop.Get<AdjustLotHandler>().HandleAsync(new(id ?? Some.Id(), shop.LotId, kind, litres, reason), Some.Supervisor, TestContext.Current.CancellationToken);

    private static Task<decimal> RemainingAsync(ShopFixture shop) => shop.ReadAsync(db => db.FluidLots.Where(l => l.Id == shop.LotId).Select(l => l.RemainingLitres).SingleAsync());
}
