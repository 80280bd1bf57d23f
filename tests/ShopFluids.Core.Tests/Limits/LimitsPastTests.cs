using ShopFluids.Core.Limits.Effects;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Limits;

/// <summary>Drafted limits on the readings of the last 90 days.</summary>
public sealed class LimitsPastTests
{
    [Theory, EachDatabase]
    public async Task Under_LimitsAsTheyAre_ChangesNothing(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 4.0m, takenAt: Some.Start.AddHours(-2)));
        await shop.StoreAsync(Some.Reading());

        var effect = (await PastOfFluidAsync(shop)).Under(await LimitsAsync(shop));

        Assert.Equal((2, 0), (effect.Readings, effect.Changed));
        var concentration = effect.Parameters.Single(p => p.Parameter == ParameterCodes.Concentration);
        Assert.Equal((new VerdictCounts(1, 0, 1, 0), new VerdictCounts(1, 0, 1, 0)), (concentration.Now, concentration.Then));
        Assert.Equal(new SumpEffect("S-07", 2, 0, 0), Assert.Single(effect.Sumps));
    }

    [Theory, EachDatabase]
    public async Task Under_StricterWarning_CountsWhatWouldHaveBeenWarned(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 8.0m, takenAt: Some.Start.AddHours(-3)));
        await shop.StoreAsync(Some.Reading(brix: 8.6m, takenAt: Some.Start.AddHours(-2)));
        await shop.StoreAsync(Some.Reading(brix: null, ph: 9.0m));

        var effect = (await PastOfFluidAsync(shop)).Under(Stricter(await LimitsAsync(shop)));

        Assert.Equal((3, 1), (effect.Readings, effect.Changed));
        var concentration = effect.Parameters.Single(p => p.Parameter == ParameterCodes.Concentration);
        Assert.Equal((new VerdictCounts(2, 0, 0, 0), new VerdictCounts(1, 1, 0, 0), 1), (concentration.Now, concentration.Then, concentration.Changed));
        Assert.Equal(new SumpEffect("S-07", 3, 1, 0), Assert.Single(effect.Sumps));
    }

    [Theory, EachDatabase]
    public async Task Under_ParameterLeftOut_IsNotJudgedAnyMore(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 4.0m));

        var effect = (await PastOfFluidAsync(shop)).Under([.. (await LimitsAsync(shop)).Where(l => l.Parameter != ParameterCodes.Concentration)]);

        Assert.Equal(new VerdictCounts(0, 0, 0, 1), effect.Parameters.Single(p => p.Parameter == ParameterCodes.Concentration).Then);
        Assert.Equal((0, 1), (effect.Sumps[0].Worse, effect.Sumps[0].Better));
    }

    [Theory, EachDatabase]
    public async Task Under_FallSinceTheFirstFill_IsReckonedFromTheFirstPh(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(ph: 9.3m, takenAt: Some.Start.AddDays(-9)));
        await shop.StoreAsync(Some.Reading(ph: 9.1m));
        var drafted = (await LimitsAsync(shop)).Select(l => l.Basis == LimitBasis.DropFromFirstFill ? l with { WarningHigh = 0.1m } : l).ToList();

        var ph = (await PastOfFluidAsync(shop)).Under(drafted).Parameters.Single(p => p.Parameter == ParameterCodes.Ph);

        Assert.Equal((new VerdictCounts(2, 0, 0, 0), new VerdictCounts(1, 1, 0, 0)), (ph.Now, ph.Then));
    }

    [Theory, EachDatabase]
    public async Task RunAsync_SupersededAndOlderReadings_AreNotTriedOn(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(takenAt: Some.Start.AddDays(-9)));
        shop.Clock.Advance(TimeSpan.FromDays(LimitsPastQuery.Days - 8));
        var wrong = Some.Reading(brix: 4.0m, takenAt: shop.Now.AddHours(-1));
        await shop.StoreAsync(wrong);
        await shop.StoreAsync(Some.Reading(brix: 8.0m, takenAt: shop.Now.AddHours(-1), supersedes: wrong.Id, reason: "Slip"));

        Assert.Equal(1, (await PastOfFluidAsync(shop)).Under(await LimitsAsync(shop)).Readings);
    }

    [Theory, EachDatabase]
    public async Task Under_OwnLimitsOfASump_LeaveTheFluidsForOtherParametersAndOtherSumps(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, "S-08", "M-08", shop.WaterId, 8));
        (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, "S-08"))).Done();
        await shop.StoreAsync(Some.Reading(sump: "S-08"));
        await shop.StoreAsync(Some.Reading(ph: 7.0m));
        var own = await StricterOwnAsync(shop);

        var past = await shop.Get<LimitsPastQuery>().RunAsync(null, shop.SumpId, TestContext.Current.CancellationToken);
        var effect = past.Under(own);

        Assert.Equal(new SumpEffect("S-07", 1, 0, 0), Assert.Single(effect.Sumps));
        Assert.Equal(1, effect.Parameters.Single(p => p.Parameter == ParameterCodes.Concentration).Changed);
        Assert.Equal(0, effect.Parameters.Single(p => p.Parameter == ParameterCodes.Ph).Changed);
        Assert.Equal(1, effect.Parameters.Single(p => p.Parameter == ParameterCodes.Ph).Then.Action);
    }

    [Theory, EachDatabase]
    public async Task Trends_OfASump_ShowWhatIsDraftedOtherwiseWithBothLimits(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading());
        var drafted = await StricterOwnAsync(shop);
        var setup = await shop.SetupAsync();
        var say = new Sentences(setup.FormatFor(), setup);

        var past = await shop.Get<LimitsPastQuery>().RunAsync(null, shop.SumpId, TestContext.Current.CancellationToken);
        var charts = past.Trends(drafted, say)?.Charts;

        Assert.NotNull(charts);
        Assert.Equal(2, charts.Count);
        Assert.Equal([Verdict.InRange, Verdict.Warning], charts.Select(c => Assert.Single(c.Points).Verdict));
        Assert.Equal(8.5, charts[1].Limits[0].WarningLow);
        Assert.NotEqual(8.5, charts[0].Limits[0].WarningLow);
        Assert.Null(past.Trends(setup.LimitSets.Single(l => l.SumpId == shop.SumpId).Limits, say));
        Assert.Null((await PastOfFluidAsync(shop)).Trends(drafted, say));
    }

    private static List<ParameterLimits> Stricter(IReadOnlyList<ParameterLimits> limits) =>
        [.. limits.Select(l => l.Parameter == ParameterCodes.Concentration ? l with { WarningLow = 8.5m, TargetLow = 8.5m } : l)];

    // The limits that the sump has of its own, and a concentration with a higher warning.
    private static async Task<List<ParameterLimits>> StricterOwnAsync(ShopFixture shop) =>
        [.. (await shop.SetupAsync()).LimitSets.Single(l => l.SumpId == shop.SumpId).Limits, .. Stricter(await LimitsAsync(shop)).Where(l => l.Parameter == ParameterCodes.Concentration)];

    private static async Task<IReadOnlyList<ParameterLimits>> LimitsAsync(ShopFixture shop) => (await shop.SetupAsync()).LimitSets.Single(l => l.FluidId == shop.FluidId).Limits;

    private static Task<LimitsPast> PastOfFluidAsync(ShopFixture shop) => shop.Get<LimitsPastQuery>().RunAsync(shop.FluidId, null, TestContext.Current.CancellationToken);
}
