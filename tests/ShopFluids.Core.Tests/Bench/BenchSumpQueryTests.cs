using ShopFluids.Core.Bench;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Bench;

public sealed class BenchSumpQueryTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task FindAsync_SumpThatWasRead_FillsInTheTopUp(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 7.5m, levelMm: 300));

        var sump = await shop.Get<BenchSumpQuery>().FindAsync("s-07", Token);

        Assert.NotNull(sump);
        var known = new BenchList().Find("top-up")!.From(sump).Values.ToDictionary(k => k.Key, k => Assert.Single(k.Value));
        Assert.Equal(150, known["volumeLitres"]);
        Assert.Equal(7.5m, known["concentrationPercent"]);
        Assert.Equal(170, known["targetVolumeLitres"]);
        Assert.Equal((8, 1, 15), (known["targetPercent"], known["premixMinimumPercent"], known["premixMaximumPercent"]));
        Assert.Equal((200, 30), (known["brimLitres"], known["pumpIntakeLitres"]));
    }

    [Theory, EachDatabase]
    public async Task FindAsync_CorrectedReading_IsLeftOutOfTheSeries(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var wrong = Some.Id();
        await shop.StoreAsync(Some.Reading(ph: 9.2m, id: wrong));
        await shop.StoreAsync(Some.Reading(ph: 8.9m, supersedes: wrong, reason: "misread"));

        var sump = await shop.Get<BenchSumpQuery>().FindAsync("S-07", Token);

        Assert.NotNull(sump);
        Assert.Equal([8.9], sump.Series[ParameterCodes.Ph].Select(r => r.Value));
    }

    [Theory, EachDatabase]
    public async Task FindAsync_UnknownSump_IsNull(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        Assert.Null(await shop.Get<BenchSumpQuery>().FindAsync("S-99", Token));
    }

    [Theory, EachDatabase]
    public async Task FindAsync_SumpThatWasRead_FillsInWhatTheSizingCalculatorsAskFor(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 7.5m, levelMm: 300));

        var sump = await shop.Get<BenchSumpQuery>().FindAsync("S-07", Token);

        Assert.NotNull(sump);
        decimal Known(string calculator, string input) => Assert.Single(new BenchList().Find(calculator)!.From(sump).Values[input]);
        Assert.Equal((300, (decimal)sump.PumpIntakeMm), (Known("run-dry", "levelMm"), Known("run-dry", "intakeMm")));
        Assert.Equal((150, 200, 150, 8), (Known("clean-out", "contentLitres"), Known("clean-out", "systemLitres"), Known("clean-out", "refillLitres"), Known("clean-out", "refillPercent")));
        Assert.Equal((150, 150), (Known("dose", "fluidLitres"), Known("turnovers", "volumeLitres")));
        Assert.Equal((150, 200, 30, 7.5m), (Known("shutdown", "volumeLitres"), Known("shutdown", "brimLitres"), Known("shutdown", "intakeLitres"), Known("shutdown", "percent")));
        Assert.Empty(new BenchList().Find("bacteria-growth")!.From(sump).Values);
    }
}
