using ShopFluids.Core.Sumps;
using ShopFluids.Core.Sumps.Losses;
using ShopFluids.Rules;
using ShopFluids.Rules.MassBalance;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Sumps;

/// <summary>S-07 holds half a litre for each millimetre and runs 80 h a week; its water has 150 mg/L.</summary>
public sealed class SumpLossesTests
{
    [Theory, EachDatabase]
    public async Task RunAsync_TwoFullReadings_TellLossesPerDayAndHourAndHardness(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 8.0m, levelMm: 300, takenAt: Some.Start.AddDays(-8)));
        await shop.StoreAsync(Some.Reading(brix: 10.0m, levelMm: 240, takenAt: Some.Start.AddDays(-1)));

        var found = await LossesAsync(shop);

        // 150 L at 8 % and 120 L at 10 % both hold 12 L of concentrate: 30 L of water evaporated in seven days.
        var balance = found.Losses.Balance;
        Assert.NotNull(balance);
        Assert.Equal(30, balance.EvaporationLitres.Value, 6);
        Assert.Equal(30.0 / 80, balance.PerRunningHour?.Evaporation.Value ?? 0, 6);
        Assert.Equal(80, found.WeeklyHours);
        Assert.Equal((HardnessGap.None, 150.0, null), (found.Hardness.Gap, found.Hardness.WaterMgPerLitre, found.Hardness.Measured));

        // Kept full with 30/7 L a day of make-up, ten days after the fill: 150 + 150 × (30/7 × 10) / 170.
        Assert.Equal(150 + (150 * (300.0 / 7) / 170), found.Hardness.NowMgPerLitre, 3);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_HardnessMeasured_IsWhereTheOutlookBegins(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(levelMm: 300, takenAt: Some.Start.AddDays(-8)));
        await shop.StoreAsync(Some.Reading(levelMm: 280, takenAt: Some.Start.AddDays(-1)));
        await shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.Hardness, 400)));

        var hardness = (await LossesAsync(shop)).Hardness;

        Assert.Equal(400m, hardness.Measured?.Value);
        Assert.Equal(400, hardness.NowMgPerLitre, 6);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_OneFullReading_SaysWhatIsMissing(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading());

        var found = await LossesAsync(shop);

        Assert.Equal((LossesGap.TooFewReadings, 1), (found.Losses.Gap, found.Losses.Readings));
        Assert.Equal(HardnessGap.NoLosses, found.Hardness.Gap);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_MoreConcentrateThanRecorded_SaysNothingOfHardness(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 6.0m, levelMm: 240, takenAt: Some.Start.AddDays(-8)));
        await shop.StoreAsync(Some.Reading(brix: 10.0m, levelMm: 330));

        Assert.Equal(HardnessGap.BadBalance, (await LossesAsync(shop)).Hardness.Gap);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_EmptySump_HasNone(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database, isFilled: false);

        Assert.Null((await PageAsync(shop)).Losses);
    }

    private static async Task<SumpLosses> LossesAsync(ShopFixture shop) => (await PageAsync(shop)).Losses ?? throw new InvalidOperationException("The sump is filled.");

    private static async Task<SumpPage> PageAsync(ShopFixture shop) =>
        await new SumpPageQuery(shop.Get<Core.Database.ShopDatabase>(), shop.Get<Core.Setup.SetupCache>(), shop.Get<Core.Time.ShopClock>()).RunAsync("S-07", TestContext.Current.CancellationToken)
        ?? throw new InvalidOperationException("There is a sump S-07.");
}
