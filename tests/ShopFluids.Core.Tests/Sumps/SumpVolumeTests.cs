using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Sumps;

/// <summary>The sump of <see cref="Some.Sump"/>: half a litre for each millimetre, 170 L at the full mark, 200 L at the brim; here with a level that warns under 200 mm and is too low under 120 mm.</summary>
public sealed class SumpVolumeTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task Of_LevelReadLast_HasTheVerdictOfTheReading(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        await shop.StoreAsync(Some.Reading(levelMm: 180));

        Assert.Equal(new SumpVolume(90, 170, Some.Start, false, Verdict.Warning, Direction.Low), await VolumeAsync(shop));
    }

    [Theory]
    [EachDatabase(12, Verdict.Warning, Direction.Low)]
    [EachDatabase(20, Verdict.InRange, Direction.None)]
    [EachDatabase(90, Verdict.InRange, Direction.None)]
    [EachDatabase(91, Verdict.Warning, Direction.High)]
    public async Task Of_AddedSince_IsJudgedAsTheLevelAtWhichItWouldStand(TestDatabase database, int water, Verdict verdict, Direction direction)
    {
        await using var shop = await OpenAsync(database);
        await shop.StoreAsync(Some.Reading(levelMm: 160));
        shop.Clock.Advance(TimeSpan.FromMinutes(20));
        (await shop.AddAsync(Some.Addition(null, water: water, concentrate: 0, at: shop.Now))).Done();

        var volume = await VolumeAsync(shop);

        Assert.Equal(new SumpVolume(80 + water, 170, Some.Start, true, verdict, direction), volume);
        Assert.Equal(water == 91 ? 1 : null, volume?.OverTheMarkLitres);
    }

    [Theory, EachDatabase]
    public async Task Of_FilledAndNeverRead_IsReckonedFromNoLevel(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);

        Assert.Equal(new SumpVolume(150, 170, null, true, Verdict.InRange, Direction.None), await VolumeAsync(shop));
    }

    [Theory, EachDatabase]
    public async Task Of_DrainedSump_IsNone(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        (await shop.DrainAsync(shop.Now)).Done();

        Assert.Null(await VolumeAsync(shop));
    }

    private static async Task<ShopFixture> OpenAsync(TestDatabase database)
    {
        var shop = await ShopFixture.OpenAsync(database);
        var level = new ParameterLimits(ParameterCodes.Level, LimitBasis.Value, 120, 200, null, null, null, null, false, 5);
        (await shop.Get<SetLimitsHandler>().HandleAsync(new SetLimits(Some.Id(), null, shop.SumpId, Some.Start.AddDays(-2), [level]), Some.Supervisor, Stop)).Done();
        return shop;
    }

    private static async Task<SumpVolume?> VolumeAsync(ShopFixture shop)
    {
        var page = await new SumpPageQuery(shop.Get<ShopDatabase>(), shop.Get<SetupCache>(), shop.Get<ShopClock>()).RunAsync(Some.SumpTag, Stop);
        Assert.NotNull(page);
        return page.Volume;
    }
}
