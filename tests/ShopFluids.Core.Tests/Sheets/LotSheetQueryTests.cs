using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sheets;
using ShopFluids.Core.Sheets.LotTraces;
using ShopFluids.Core.Stores;
using ShopFluids.Core.Wording;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Sheets;

public sealed class LotSheetQueryTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task RunAsync_LotInASump_GoesThereAndBackToTheOtherLots(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await ReceiveAsync(shop, shop.FluidId, "L-2");
        var second = await LotIdAsync(shop, "L-2");
        (await shop.AddAsync(Some.Addition(shop.LotId, water: 9, concentrate: 1))).Done();
        (await shop.AddAsync(Some.Addition(second, water: 18, concentrate: 2))).Done();

        var sheet = Assert.Single((await RunAsync(shop, "l-1")).Done().Sheets);

        Assert.Equal(("L-1", "1 Feb to 2 Mar 2026", "Hall 3"), (sheet.Frame.Tag, sheet.Frame.Period, sheet.Frame.Shop));
        Assert.Equal(("Emulsion A", "200.0 L", "13.0 L", "187.0 L", Texts.Setup_LotUsable), (sheet.Lot.Fluid, sheet.Lot.ReceivedLitres, sheet.Lot.Poured, sheet.Lot.Remaining, sheet.Lot.State));
        Assert.Equal("nothing is missing", sheet.Lot.Books);
        Assert.Equal(new LotSheetCharge(Some.SumpTag, "M-07", "1", "20 Feb 2026, still in", "13.0", "L-2 Emulsion A, 2.0 L"), Assert.Single(sheet.Charges));
        Assert.Equal([("fill", "12.0", "138.0"), ("top-up", "1.0", "9.0")], sheet.Pours.Select(p => (p.What, p.ConcentrateLitres, p.WaterLitres)));
        Assert.Equal("L-1 Emulsion A, 13.0 L\nL-2 Emulsion A, 2.0 L", Assert.Single(sheet.Back).Lots);
        Assert.Empty(sheet.Counts);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_BeforeItWasPoured_IsNowhere(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);

        var sheet = (await RunAsync(shop, "L-1", new(2026, 2, 1), new(2026, 2, 19))).Done().Sheets[0];

        Assert.Empty(sheet.Charges);
        Assert.Empty(sheet.Back);
        Assert.Equal(Texts.Stores_TraceNowhere, sheet.Answer);
    }

    [Theory]
    [EachDatabase(150, "38.0 L less by count")]
    [EachDatabase(189, "1.0 L more by count")]
    public async Task RunAsync_Counted_SaysWhatTheBooksSaidAndWhatThereWas(TestDatabase database, int litres, string books)
    {
        await using var shop = await OpenAsync(database);
        (await shop.Get<AdjustLotHandler>().HandleAsync(new(Some.Id(), shop.LotId, AdjustmentKind.Counted, litres, "Dipstick"), Some.Supervisor, Token)).Done();

        var sheet = (await RunAsync(shop, shop.LotId.ToString())).Done().Sheets[0];

        var count = Assert.Single(sheet.Counts);
        Assert.Equal((Texts.LotSheet_Counted, "188.0", $"{litres}.0", "Dipstick"), (count.What, count.BeforeLitres, count.AfterLitres, count.Reason));
        Assert.Equal(books, sheet.Lot.Books);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_NumberOnLotsOfTwoFluids_EachHasItsSheet(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        var other = Some.Id();
        (await shop.Get<AddFluidHandler>().HandleAsync(Some.Fluid(other, "Emulsion B"), Some.Supervisor, Token)).Done();
        await ReceiveAsync(shop, other, "L-1");

        var sheets = (await RunAsync(shop, "L-1")).Done().Sheets;

        Assert.Equal(["Emulsion A", "Emulsion B"], sheets.Select(s => s.Lot.Fluid).Order(StringComparer.Ordinal));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_UnknownLotOrWrongPeriod_IsRefused(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);

        Assert.Equal(new LotNumberUnknown("L-9"), (await RunAsync(shop, "L-9")).Error);
        Assert.IsType<PeriodNotValid>((await RunAsync(shop, "L-1", new(2026, 3, 2), new(2026, 3, 1))).Error);
    }

    private static Task<ShopFixture> OpenAsync(TestDatabase database) => ShopFixture.OpenAsync(database, also: s => s.AddSingleton<LotSheetQuery>());

    private static Task<Core.Database.Result<LotSheets>> RunAsync(ShopFixture shop, string lot, DateOnly? from = null, DateOnly? to = null) =>
        shop.Get<LotSheetQuery>().RunAsync(new LotSheetRequest(lot, from, to, "Sup"), Token);

    private static async Task ReceiveAsync(ShopFixture shop, Guid fluidId, string number) =>
        (await shop.Get<ReceiveLotHandler>().HandleAsync(Some.Lot(Some.Id(), fluidId, number), Some.Supervisor, Token)).Done();

    private static async Task<Guid> LotIdAsync(ShopFixture shop, string number) => (await shop.Get<LotsQuery>().RunAsync(Token)).Single(l => l.Number == number).Id;
}
