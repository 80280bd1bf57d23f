using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Tuning;
using ShopFluids.Rules;
using ShopFluids.Rules.Gathering;
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

    // Skim on Wednesday goes along with Monday's test, the filter of Thursday does not, and draining has a list of its own.
    [Theory, EachDatabase]
    public async Task RunAsync_TestDue_SaysWhatGoesAlong(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        await shop.StepAsync(Some.Step(TaskKind.Skim, days: 14, anchor: new DateOnly(2026, 3, 4)));
        await shop.StepAsync(Some.Step(TaskKind.ChangeFilter, days: 28, anchor: new DateOnly(2026, 3, 5)));
        await shop.StepAsync(Some.Step(TaskKind.DrainClean, days: 364, anchor: new DateOnly(2026, 3, 2)));
        await shop.StepAsync(Some.Step(TaskKind.Inspect, days: 28, anchor: new DateOnly(2026, 3, 2)));

        var page = await RunAsync(shop);

        Assert.Equal([(TaskKind.Inspect, true), (TaskKind.Skim, false)], Assert.Single(page.Due).Along.Select(w => (w.Kind, w.IsDue)));
        Assert.Equal(30, page.MinutesLeft);
        Assert.Empty(page.Services);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_GatheringSwitchedOff_NothingIsBroughtForward(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        await shop.StepAsync(Some.Step(TaskKind.Skim, days: 14, anchor: new DateOnly(2026, 3, 3)));
        (await shop.Get<SetRuleHandler>().HandleAsync(new SetRule(Some.Id(), GatheringRule.RuleCode, null, null, IsOn: false, new Dictionary<string, decimal>(), "Skimmed by the night shift", 0), Some.Supervisor, TestContext.Current.CancellationToken)).Done();

        Assert.Empty(Assert.Single((await RunAsync(shop)).Due).Along);
    }

    // Work without a test stands on the round too, with the reading on whose page it is ticked off.
    [Theory, EachDatabase]
    public async Task RunAsync_WorkDueWithoutATest_IsAServiceWithTheLastReading(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test, anchor: new DateOnly(2026, 3, 20)));
        await shop.StepAsync(Some.Step(TaskKind.Skim, days: 14));
        Assert.Null(Assert.Single((await RunAsync(shop)).Services).ReadingId);
        var wrong = await shop.StoreAsync(Some.Reading(ph: 9.1m));
        var right = await shop.StoreAsync(Some.Reading(supersedes: wrong.ReadingId, reason: "Read at the wrong sump"));

        var page = await RunAsync(shop);

        Assert.Empty(page.Due);
        var service = Assert.Single(page.Services);
        Assert.Equal(("S-07", right.ReadingId), (service.Place.Tag, service.ReadingId));
        Assert.Equal([(TaskKind.Skim, true)], service.Work.Select(w => (w.Kind, w.IsDue)));
    }

    // The walk stays the walk; what needs somebody most is named beside it, the most urgent first.
    [Theory, EachDatabase]
    public async Task RunAsync_SomeNeedItMore_AreNamedWithoutChangingTheWalk(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await FilledAsync(shop, "S-01", "M-01", walkOrder: 1);
        await FilledAsync(shop, "S-02", "M-02", walkOrder: 2);
        await shop.StepAsync(Some.Step(TaskKind.Test, days: 14));
        await shop.StoreAsync(Some.Reading(sump: "S-01"));
        await shop.StoreAsync(Some.Reading(sump: "S-02", brix: 4.0m));
        Assert.Empty((await RunAsync(shop)).Pressing);

        shop.Clock.Advance(TimeSpan.FromDays(8));
        var page = await RunAsync(shop);

        Assert.Equal(["S-01", "S-02", "S-07"], page.Due.Select(s => s.Place.Tag));
        Assert.Equal(["S-02", "S-07", "S-01"], page.Pressing.Select(s => s.Place.Tag));
        Assert.Equal([true, false, false], page.Pressing.Select(s => s.Priority.HasActionFlag));
    }
}
