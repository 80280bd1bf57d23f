using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Rounds;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Rounds;

public sealed class RoundPageQueryTests
{
    private static Task<ShopFixture> OpenAsync(TestDatabase database) => ShopFixture.OpenAsync(database, also: s => s.AddSingleton<RoundPageQuery>());

    private static Task<RoundPage> RunAsync(ShopFixture shop) => shop.Get<RoundPageQuery>().RunAsync(default);

    private static async Task FilledAsync(ShopFixture shop, string tag, string machineTag, int walkOrder)
    {
        await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, tag, machineTag, walkOrder: walkOrder));
        (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, tag))).Done();
        await shop.StepAsync(Some.Step(TaskKind.Test, tag));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_SumpsDue_ComeInWalkingOrderWithWhatToMeasure(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        await FilledAsync(shop, "S-30", "M-30", walkOrder: 1);

        var page = await RunAsync(shop);

        Assert.Equal(["S-30", "S-07"], page.Due.Select(s => s.Place.Tag));
        Assert.Equal([ParameterCodes.Concentration, ParameterCodes.Ph], page.Due[0].Tests.Remaining);
        Assert.Equal(20, page.MinutesLeft);
        Assert.Empty(page.Read);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_SumpRead_CountsAsReadAndComesAgainWhenItFallsDue(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        await shop.StoreAsync(Some.Reading());

        var today = await RunAsync(shop);
        shop.Clock.Advance(TimeSpan.FromDays(7));
        var nextWeek = await RunAsync(shop);

        Assert.Empty(today.Due);
        Assert.Equal("S-07", Assert.Single(today.Read).Place.Tag);
        Assert.Equal("S-07", today.Later?.Place.Tag);
        Assert.Equal("S-07", Assert.Single(nextWeek.Due).Place.Tag);
        Assert.Empty(nextWeek.Read);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_ReadWithoutWhatTheTestAsks_StaysDue(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        await shop.StoreAsync(Some.Reading(brix: null, ph: null));

        var page = await RunAsync(shop);

        Assert.Single(page.Due);
        Assert.Empty(page.Read);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_ReadWithoutOneOfTheDueParameters_AsksOnlyForThatAndStandsAfterTheUnread(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        await FilledAsync(shop, "S-30", "M-30", walkOrder: 99);
        await shop.StoreAsync(Some.Reading(ph: null));

        var page = await RunAsync(shop);

        Assert.Equal(["S-30", "S-07"], page.Due.Select(s => s.Place.Tag));
        Assert.Equal([ParameterCodes.Ph], page.Due[1].Tests.Remaining);
        Assert.Equal([ParameterCodes.Concentration], page.Due[1].Tests.Done);
        Assert.False(page.Due[0].Tests.IsPartlyRead);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_TheRestReadLaterOnTheDay_CountsAsRead(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        await shop.StoreAsync(Some.Reading(ph: null));
        shop.Clock.Advance(TimeSpan.FromMinutes(30));
        await shop.StoreAsync(Some.Reading(brix: null, levelMm: null, takenAt: shop.Now));

        var page = await RunAsync(shop);

        Assert.Empty(page.Due);
        Assert.Equal("S-07", Assert.Single(page.Read).Place.Tag);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_TheRestReadOnAnotherDay_AsksForAllAgain(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        await shop.StoreAsync(Some.Reading(ph: null));
        shop.Clock.Advance(TimeSpan.FromDays(1));

        var stop = Assert.Single((await RunAsync(shop)).Due);

        Assert.Equal([ParameterCodes.Concentration, ParameterCodes.Ph], stop.Tests.Remaining);
        Assert.False(stop.Tests.IsPartlyRead);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_EmptySump_IsListedButNotDue(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, "S-08", "M-08"));

        var page = await RunAsync(shop);

        Assert.Contains(page.All, s => s.Place.Tag == "S-08" && s.FilledAtUtc is null);
        Assert.DoesNotContain(page.Due, s => s.Place.Tag == "S-08");
    }

    [Theory, EachDatabase]
    public async Task RunAsync_OneValueBeyond_IsNamedAsTheReason(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 4));

        var stop = Assert.Single((await RunAsync(shop)).All);

        Assert.Equal(new WorstValue(ParameterCodes.Concentration, 4), stop.Worst);
        Assert.Equal(0.75, Assert.NotNull(stop.Place.Levels.Now), 6);
    }
}
