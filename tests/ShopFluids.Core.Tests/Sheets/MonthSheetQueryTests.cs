using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Sheets.MonthlySummaries;
using ShopFluids.Core.Tests.CleanOuts;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Sheets;

public sealed class MonthSheetQueryTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task RunAsync_MonthOfTheFill_HasItsUseAndCost(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);

        var sheet = await RunAsync(shop, new(2026, 2, 14));

        Assert.Equal(("Feb 2026", "1 Feb to 28 Feb 2026"), (sheet.Frame.Tag, sheet.Frame.Period));
        Assert.Equal(new MonthSheetUse("Emulsion A", "12.0", "", "138.0", "", "78.00 EUR"), Assert.Single(sheet.Use));
        Assert.Equal(("12.0 L", "78.00 EUR", "0", "0 of 1"), (sheet.Facts.Concentrate, sheet.Facts.Cost, sheet.Facts.Readings, sheet.Facts.SumpsRead));
        Assert.Empty(sheet.Charges);
        Assert.Null(sheet.Facts.MeanLife);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_MonthThatGoesOn_EndsToday(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);

        var sheet = await RunAsync(shop, null);

        Assert.Equal("1 Mar to 2 Mar 2026", sheet.Frame.Period);
        Assert.Empty(sheet.Use);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_WorkDoneLateAndLeft_IsCountedByKind(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        await shop.StepAsync(Some.Step(TaskKind.Skim));
        shop.Clock.Advance(TimeSpan.FromDays(2));
        await shop.StoreAsync(Some.Reading(takenAt: shop.Now));

        var work = (await RunAsync(shop, null)).Work;

        Assert.Equal([new("Test", "1", "1", "0", "0"), new(WorkSentences.Planned(TaskKind.Skim), "0", "0", "0", "1")], work);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_FlagRaisedAndCleared_IsCountedByItsRule(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 4.0m));
        shop.Clock.Advance(TimeSpan.FromHours(2));
        await shop.StoreAsync(Some.Reading(ph: null, levelMm: null, takenAt: shop.Now));

        var sheet = await RunAsync(shop, null);

        var limit = Assert.Single(sheet.Flags, f => f.Rule == Texts.Rule_Limit);
        Assert.Equal(("1", "1", "0", "0"), (limit.Raised, limit.Ended, limit.Closed, limit.Open));
        Assert.Equal(("2", "1 of 1"), (sheet.Facts.Readings, sheet.Facts.SumpsRead));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_CleanOut_EndsTheChargeStepByStep(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await new CleanOutRun(shop).FinishAsync();

        var sheet = await RunAsync(shop, null);

        Assert.Equal(new MonthSheetCharge(Some.SumpTag, "1", "Emulsion A", "20 Feb 2026", "2 Mar 2026", "10 days", "143.0", Texts.MonthSheet_StepByStep), Assert.Single(sheet.Charges));
        Assert.Equal(("1 of 1", "10 days"), (sheet.Facts.CleanOuts, sheet.Facts.MeanLife));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_MonthToCome_IsRefused(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);

        Assert.Equal(new MonthNotBegun(new(2026, 4, 1)), (await shop.Get<MonthSheetQuery>().RunAsync(new(2026, 4, 3), "Sup", Token)).Error);
    }

    private static Task<ShopFixture> OpenAsync(TestDatabase database) => ShopFixture.OpenAsync(database, also: s => s.AddSingleton<MonthSheetQuery>());

    private static async Task<MonthSheet> RunAsync(ShopFixture shop, DateOnly? month) => (await shop.Get<MonthSheetQuery>().RunAsync(month, "Sup", Token)).Done();
}
