using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Sheets;
using ShopFluids.Core.Sheets.WasteLogs;
using ShopFluids.Core.Stores;
using ShopFluids.Core.Tests.CleanOuts;
using ShopFluids.Core.Wording;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Sheets;

public sealed class WasteSheetQueryTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task RunAsync_NothingTakenOut_IsEmpty(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);

        var sheet = await RunAsync(shop);

        Assert.Empty(sheet.Entries);
        Assert.Equal(("1 Jan to 2 Mar 2026", "0.0 L"), (sheet.Frame.Period, sheet.Total));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_RemovalAndDrain_CarryTheCodeOfTheFluid(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        (await shop.AddAsync(Some.Addition(shop.LotId, removed: 10, at: Some.Start.AddDays(-3)))).Done();
        (await shop.DrainAsync(shop.Now, litres: 150)).Done();

        var sheet = await RunAsync(shop);

        Assert.Equal([(Texts.Sheet_MovedDrain, "150.0"), (Texts.Sheet_MovedRemoval, "10.0")], sheet.Entries.Select(e => (e.What, e.Litres)));
        Assert.All(sheet.Entries, e => Assert.Equal((Some.SumpTag, "120109", Texts.Sheet_NotRecorded), (e.From, e.Code, e.Carrier)));
        Assert.Equal("160.0 L", sheet.Total);
        Assert.Equal([("Mar 2026", "150.0"), ("Feb 2026", "10.0")], sheet.Months.Select(m => (m.Month, m.MonthLitres)));
    }

    // The steps say by code what the drain says in one number: counted once.
    [Theory, EachDatabase]
    public async Task RunAsync_CleanOut_IsCountedOnceByItsStepsWithItsCarrier(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await new CleanOutRun(shop).FinishAsync();

        var sheet = await RunAsync(shop);

        Assert.Equal(("216.0 L", "216.0 L"), (sheet.Total, sheet.Hazardous));
        Assert.Null(sheet.Uncoded);
        Assert.All(sheet.Entries, e => Assert.Equal("Hall carrier, container 4", e.Carrier));
        Assert.Equal([("12 01 09*", "2", "201.0"), ("12 01 14*", "1", "9.0"), ("15 02 02*", "1", "4.0"), ("13 05 06*", "1", "2.0")], sheet.Codes.Select(c => (c.Code, c.Entries, c.Litres)));
        Assert.Equal(Texts.Waste_120109, sheet.Codes[0].Meaning);
        Assert.Equal("216.0", sheet.Months[0].MonthLitres);
    }

    // The limit is that of vectors/used_oil_halogen.csv: 999 ppm no, 1,000 ppm yes.
    [Theory]
    [EachDatabase(999.0, "999 mg/kg")]
    [EachDatabase(1000.0, "1,000 mg/kg: presumed hazardous")]
    [EachDatabase(null, "not tested")]
    public async Task RunAsync_HalogensNotedWithTheCarrier_SaysWhatTheyMean(TestDatabase database, double? halogens, string said)
    {
        await using var shop = await OpenAsync(database);
        var run = new CleanOutRun(shop);
        await run.UpToAsync(CleanOutStepKind.Cleaner);
        (await run.NoteAsync(CleanOutStepKind.Carrier, run.Note(CleanOutStepKind.Carrier) with { HalogensMgPerKg = (decimal?)halogens })).Done();
        (await run.NoteAsync(CleanOutStepKind.LockOut)).Done();
        (await run.NoteAsync(CleanOutStepKind.Drain)).Done();

        Assert.Equal([said, ""], (await RunAsync(shop)).Entries.Select(e => e.Halogens));
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_CleanOutWithSeveralRows_SaysItsHalogensOnce(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        var run = new CleanOutRun(shop);
        await run.UpToAsync(CleanOutStepKind.Cleaner);
        (await run.NoteAsync(CleanOutStepKind.Carrier, run.Note(CleanOutStepKind.Carrier) with { HalogensMgPerKg = 640 })).Done();
        (await run.NoteAsync(CleanOutStepKind.LockOut)).Done();
        (await run.NoteAsync(CleanOutStepKind.Drain)).Done();
        (await run.NoteAsync(CleanOutStepKind.Wipe)).Done();

        Assert.Equal(["640 mg/kg", "", "", ""], (await RunAsync(shop)).Entries.Select(e => e.Halogens));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_CleanOutBrokenOffAfterTheDrain_CountsTheDrainWhereTheChargeEnded(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        var run = new CleanOutRun(shop);
        await run.UpToAsync(CleanOutStepKind.Wipe);
        (await shop.DrainAsync(shop.Now, litres: 140)).Done();

        var sheet = await RunAsync(shop);

        // 140 drained, and the sludge and cloths of the step after it.
        Assert.Equal("153.0 L", sheet.Total);
        Assert.Equal(3, sheet.Entries.Count);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_LotThrownAway_HasNoCodeAndSaysWhereItWent(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        (await shop.Get<AdjustLotHandler>().HandleAsync(new(Some.Id(), shop.LotId, AdjustmentKind.Discarded, 0, "Split in the frost; carrier's note 88213"), Some.Supervisor, Token)).Done();

        var sheet = await RunAsync(shop);

        var entry = Assert.Single(sheet.Entries);
        Assert.Equal(("L-1", Texts.Sheet_NotRecorded, "188.0", "Split in the frost; carrier's note 88213"), (entry.From, entry.Code, entry.Litres, entry.Carrier));
        Assert.Equal(("188.0 L", "0.0 L"), (sheet.Uncoded, sheet.Hazardous));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_OtherPeriod_LeavesOutWhatWasBefore(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        (await shop.AddAsync(Some.Addition(shop.LotId, removed: 10, at: Some.Start.AddDays(-3)))).Done();

        Assert.Empty((await shop.Get<WasteSheetQuery>().RunAsync(new(2026, 3, 1), null, "Sup", Token)).Done().Entries);
        Assert.IsType<PeriodNotValid>((await shop.Get<WasteSheetQuery>().RunAsync(new(2026, 3, 3), null, "Sup", Token)).Error);
    }

    private static Task<ShopFixture> OpenAsync(TestDatabase database) => ShopFixture.OpenAsync(database, also: s => s.AddSingleton<WasteSheetQuery>());

    private static async Task<WasteSheet> RunAsync(ShopFixture shop) => (await shop.Get<WasteSheetQuery>().RunAsync(null, null, "Sup", Token)).Done();
}
