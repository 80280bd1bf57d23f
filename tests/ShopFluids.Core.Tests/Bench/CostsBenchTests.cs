using ShopFluids.Core.Bench.Answers;
using ShopFluids.Rules;
using Xunit;

namespace ShopFluids.Core.Tests.Bench;

/// <summary>The bench gives what the worked examples of docs/calculations/costs.md give.</summary>
public sealed class CostsBenchTests
{
    [Fact]
    public void ChargeCost_WorkedExample_AgreesToTheCent()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("charge-cost"));

        Assert.Equal((963.75, 0.96375), (answer.Value("totalCost"), answer.Value("costPerRunningHour")));
        Assert.Equal(963.75 / 180, answer.Value("costPerDay"), 9);
        Assert.Equal([195.3, 3.1, 37, 156.1, 361, 211.25], Assert.IsType<BenchBars>(answer.Picture).Bars.Select(b => b.Value));
        Assert.Equal("46.5 × 4.2 = 195.3", answer.Steps[0].Numbers);
    }

    [Fact]
    public void DrainOrKeep_WorkedExample_IsCheapestAtAHundredDays()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("drain-or-keep"));

        Assert.Equal((100, 10.05), (answer.Value("bestDays"), answer.Value("leastCostPerDay")));
        Assert.Equal(6.1, answer.Value("nextDayCost"), 9);
        Assert.Equal(Verdict.InRange, Assert.Single(answer.Findings).Verdict);
        Assert.Equal("A(100) = (500 + 505) / 100 = 10.05", answer.Steps[0].Numbers);
        Assert.Equal([(100.0, 10.05)], Assert.IsType<BenchCurves>(answer.Picture).Curves[^1].Points);
    }

    [Fact]
    public void DrainOrKeep_OlderThanTheBestAge_IsDrained() =>
        Assert.Equal(Verdict.Warning, BenchRuns.Answer(BenchRuns.Run("drain-or-keep", ("ageDays", 101))).Findings[0].Verdict);

    [Fact]
    public void DrainOrKeep_ConditionSaysDrain_IsNeverOverruledByMoney() =>
        Assert.Equal("Drain it, whatever it costs: its condition says so", BenchRuns.Answer(BenchRuns.RunChosen("drain-or-keep", "conditionSaysDrain", "yes")).Findings[0].Sentence);

    [Fact]
    public void DrainOrKeep_ForecastTooShort_SaysThatTheAverageStillFalls() =>
        Assert.Equal(["decision", "beyond"], BenchRuns.Answer(BenchRuns.Run("drain-or-keep", ("forecastDays", 90))).Findings.Select(f => f.Code));
}
