using ShopFluids.Core.Bench;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Database;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Bench;

/// <summary>The bench gives what the worked examples of balance.md, statistics.md and forecast.md give.</summary>
public sealed class TrendBenchTests
{
    [Fact]
    public void Balance_AWeekWithATopUp_LosesWhatTheRecordsSay()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("balance"));

        Assert.Equal(100, answer.Value("volumeLostLitres"), 6);
        Assert.Equal(1.32, answer.Value("concentrateLostLitres"), 6);
        Assert.Equal(100, answer.Value("evaporationLitres") + answer.Value("carryOffLitres"), 6);
        Assert.Equal(7 * answer.Value("evaporationLitresPerDay"), answer.Value("evaporationLitres"), 6);
        Assert.Equal(Verdict.InRange, answer.Findings.Single(f => f.Code == "closes").Verdict);
    }

    [Fact]
    public void Balance_WaterThatNobodyRecorded_SaysThatItDoesNotCloseAndWhy()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("balance", ("waterAddedLitres", 0), ("concentrateAddedLitres", 0), ("volumeAfterLitres", 480), ("concentrationAfterPercent", 5)));

        Assert.Equal(Verdict.Warning, answer.Findings.Single(f => f.Code == "doesNotClose").Verdict);
        Assert.Contains("water added and not recorded", answer.Findings.Single(f => f.Code == "causes").Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void Hardness_WorkedExample_AgreesAndAsksForSixtyPercentSoftWater()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("hardness-build-up", ("makeUpMgPerLitre", 150), ("startMgPerLitre", 150), ("days", 60)));
        Assert.Equal(353, answer.Value("thenMgPerLitre"), 0);
        Assert.Equal(75, answer.Value("hardestMakeUpMgPerLitre"), 6);

        Assert.Equal(60, BenchRuns.Answer(BenchRuns.Run("hardness-build-up")).Value("softSharePercent"), 6);
    }

    [Fact]
    public void Individuals_NistFlowRates_MatchTheHandbook()
    {
        var typed = BenchRuns.Usual(BenchRuns.Calculator("individuals-chart"));
        typed["values"] = BenchRuns.Series([49.6m, 47.6m, 49.9m, 51.3m, 47.8m, 51.2m, 52.6m, 52.4m, 53.6m, 52.1m]);

        var answer = BenchRuns.Answer(BenchRuns.Calculator("individuals-chart").Run(typed, BenchRuns.Format));

        Assert.Equal((50.81, 45.8159, 55.8041), (Math.Round(answer.Value("mean"), 2), Math.Round(answer.Value("lowerAction"), 4), Math.Round(answer.Value("upperAction"), 4)));
        Assert.Equal(["chance"], answer.Findings.Select(f => f.Code));
    }

    [Fact]
    public void Individuals_OneFarReading_NamesIt()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("individuals-chart"));

        Assert.Contains("reading 12", answer.Findings.Single(f => f.Code == "OneBeyondThreeSigma").Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void Trend_FallingPh_PlansTheTestOfTheWorkedExample()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("trend"));

        Assert.Equal(25.1, answer.Value("nextTestDay"), 1);
        Assert.Equal(5, answer.Value("riskThenPercent"), 1);
        Assert.IsType<BenchCurves>(answer.Picture);
    }

    [Fact]
    public void Trend_FewerDaysThanValues_IsRefusedAtTheField()
    {
        var typed = BenchRuns.Usual(BenchRuns.Calculator("trend"));
        typed["days"] = BenchRuns.Series([0, 7, 14]);

        var fault = BenchRuns.Fault(BenchRuns.Calculator("trend").Run(typed, BenchRuns.Format));

        Assert.Equal(("values", FieldProblem.DoesNotFit), (fault.Field, fault.Problem));
    }

    [Theory, EachDatabase]
    public async Task Balance_OfASump_TakesTheMovementsBetweenItsReadings(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(levelMm: 300));
        shop.Clock.Advance(TimeSpan.FromDays(2));
        await shop.AddAsync(Some.Addition(shop.LotId, at: shop.Now));
        shop.Clock.Advance(TimeSpan.FromDays(2));
        await shop.StoreAsync(Some.Reading(levelMm: 310, takenAt: shop.Now));

        var sump = await shop.Get<BenchSumpQuery>().FindAsync(Some.SumpTag, TestContext.Current.CancellationToken);

        Assert.NotNull(sump);
        var known = new BenchList().Find("balance")!.From(sump).Values.ToDictionary(k => k.Key, k => Assert.Single(k.Value));
        Assert.Equal((4, 150, 155), (known["days"], known["volumeBeforeLitres"], known["volumeAfterLitres"]));
        Assert.Equal((10, 1, 0), (known["waterAddedLitres"], known["concentrateAddedLitres"], known["removedLitres"]));
    }
}
