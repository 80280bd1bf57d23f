using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Readings;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Rounds;

public sealed class EntryPageQueryTests
{
    private static Task<ShopFixture> OpenAsync(TestDatabase database) => ShopFixture.OpenAsync(database, also: s => s.AddSingleton<EntryPageQuery>());

    private static async Task<EntryPage> RunAsync(ShopFixture shop) => (await shop.Get<EntryPageQuery>().RunAsync("s-07", default)).Done();

    [Theory, EachDatabase]
    public async Task RunAsync_NothingDue_AsksForTheUsualThree(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);

        var page = await RunAsync(shop);

        Assert.Equal([ParameterCodes.Concentration, ParameterCodes.Ph, ParameterCodes.Level], page.Due.Select(f => f.Key));
        Assert.Contains(page.Others, f => f.Key == "concentration-titration");
        Assert.Equal(11, page.DayOfCharge);
    }

    // A second look at a low concentration leads to a recipe, and that takes the level.
    [Theory, EachDatabase]
    public async Task RunAsync_ConcentrationIsToBeTestedAgain_AsksForTheLevelToo(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test, parameters: [ParameterCodes.Concentration]));

        Assert.Equal([ParameterCodes.Concentration, ParameterCodes.Level], (await RunAsync(shop)).Due.Select(f => f.Key));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_ReadWithoutOneOfTheDueParameters_AsksForThatAndNamesTheRest(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test, parameters: [ParameterCodes.Concentration, ParameterCodes.Ph, ParameterCodes.Odour]));
        await shop.StoreAsync(Some.Reading());

        var page = await RunAsync(shop);

        Assert.Equal([ParameterCodes.Odour], page.Due.Select(f => f.Key));
        Assert.Equal([ParameterCodes.Concentration, ParameterCodes.Ph], page.DoneToday);
        Assert.Contains(page.Others, f => f.Key == ParameterCodes.Ph);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_Level_AcceptsUpToTheBrimInEachUnit(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);

        var level = (await RunAsync(shop)).Due.Single(f => f.Key == ParameterCodes.Level);

        Assert.Equal([400m, 15.74m, 100m], level.Ways.Select(w => Assert.NotNull(w.High)));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_AddedSinceTheLastLevel_SaysWhereItStandsNow(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.InstrumentAsync(Some.Refractometer());
        await shop.StoreAsync(Some.Reading(levelMm: 250));
        shop.Clock.Advance(TimeSpan.FromMinutes(5));
        (await shop.AddAsync(Some.Addition(shop.LotId, water: 36, concentrate: 4, at: shop.Now))).Done();

        var page = await RunAsync(shop);

        Assert.Equal(250, page.Due.Single(f => f.Key == ParameterCodes.Level).Last?.Value);
        Assert.Equal(330, Assert.NotNull(page.FilledToMm), 6);
        Assert.False(Assert.Single(page.Instruments).IsInUse);
    }

    [Theory, EachDatabase]
    public async Task StoredTakenAtAsync_KnownId_IsTheTimeThatWasStored(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        var outcome = await shop.StoreAsync(Some.Reading(takenAt: Some.Start.AddMinutes(-3)));

        Assert.Equal(Some.Start.AddMinutes(-3), await shop.Get<EntryPageQuery>().StoredTakenAtAsync(outcome.ReadingId, TestContext.Current.CancellationToken));
        Assert.Null(await shop.Get<EntryPageQuery>().StoredTakenAtAsync(Some.Id(), TestContext.Current.CancellationToken));
    }

    // The monthly slide falls due in two days; the weekly test is due today. Alone, nothing would be brought forward.
    [Theory]
    [EachDatabase(true)]
    [EachDatabase(false)]
    public async Task RunAsync_AnotherTestNearlyDue_IsAskedForWhereSomethingIsDue(TestDatabase database, bool isSomethingDue)
    {
        await using var shop = await OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test, days: 28, anchor: new DateOnly(2026, 3, 4), parameters: [ParameterCodes.Odour, ParameterCodes.Ph]));
        await shop.StepAsync(Some.Step(TaskKind.Test, anchor: new DateOnly(2026, 3, isSomethingDue ? 2 : 9)));

        var page = await RunAsync(shop);

        Assert.Equal(isSomethingDue ? [ParameterCodes.Odour] : [], page.Along);
        Assert.Equal(isSomethingDue, page.Due.Any(f => f.Key == ParameterCodes.Odour));
    }
}
