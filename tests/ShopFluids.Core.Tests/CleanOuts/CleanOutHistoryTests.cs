using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Sheets;
using ShopFluids.Core.Sumps;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.CleanOuts;

/// <summary>What is told of a clean-out afterwards.</summary>
public sealed class CleanOutHistoryTests
{
    [Theory, EachDatabase]
    public async Task OfSumpAsync_Finished_ListsStepsWithWasteWhoAndWhen(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database, also: s => s.AddSingleton<HistorySheetQuery>());
        await new CleanOutRun(shop).FinishAsync();

        var sheet = (await shop.Get<HistorySheetQuery>().OfSumpAsync(new("S-07", null, null, "Sup"), TestContext.Current.CancellationToken)).Done().Sheets[0];

        Assert.Equal(12, sheet.CleanOuts.Count);
        Assert.Equal(("Drain", "141.0 L under 12 01 09*, 2.0 L under 13 05 06*, sludge 35 mm"), (sheet.CleanOuts[5].Step, sheet.CleanOuts[5].Noted));
        Assert.Contains("08:50", sheet.CleanOuts[5].When, StringComparison.Ordinal);
        Assert.Equal(
            "Drained, cleaned and refilled. Waste: 201.0 L under 12 01 09*, 2.0 L under 13 05 06*, 9.0 L under 12 01 14*, 4.0 L under 15 02 02*.",
            sheet.CleanOuts[^1].Noted);
    }

    [Theory, EachDatabase]
    public async Task OfSumpAsync_NothingCleanedOut_HasNoSuchTable(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database, also: s => s.AddSingleton<HistorySheetQuery>());

        var sheet = (await shop.Get<HistorySheetQuery>().OfSumpAsync(new("S-07", null, null, "Sup"), TestContext.Current.CancellationToken)).Done().Sheets[0];

        Assert.Empty(sheet.CleanOuts);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_FinishedAndBegun_AreBothInTheHistoryOfTheSump(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database, also: s => s.AddSingleton<SumpPageQuery>());
        await new CleanOutRun(shop).FinishAsync();
        await new CleanOutRun(shop).UpToAsync(CleanOutStepKind.SafetySheets);

        var history = (await shop.Get<SumpPageQuery>().RunAsync("S-07", TestContext.Current.CancellationToken))!.History;

        Assert.Equal([true, false], history.CleanOuts.Select(c => c.EndedAtUtc is null));
        Assert.Equal(216, history.CleanOuts[1].Waste.Sum(w => w.Litres));
    }
}
