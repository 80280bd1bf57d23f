using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Database;
using ShopFluids.Rules;
using Xunit;

namespace ShopFluids.Core.Tests.Bench;

/// <summary>The bench gives what the worked examples of docs/calculations/upkeep.md and skimming.md give.</summary>
public sealed class UpkeepBenchTests
{
    [Fact]
    public void CleanOut_WorkedExample_Agrees()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("clean-out"));

        Assert.Equal((6, 286, 446, 0), (answer.Value("cleanerLitres"), answer.Value("drainLitres"), answer.Value("wasteLitres"), answer.Value("removeFirstLitres")));
        Assert.Equal((26.5, 353.5), (answer.Value("concentrateLitres"), answer.Value("waterLitres")));
        Assert.Equal((0.2, 6.6, 3.1), (answer.Rounded("oldFluidPercent"), answer.Rounded("expectedPercent"), answer.Rounded("machineHours")));
        Assert.Equal([286, 160, 380], Assert.IsType<BenchBars>(answer.Picture).Bars.Select(b => b.Value));
    }

    [Fact]
    public void CleanOut_StoreTooSmall_BuysOneDrumAndSaysSo()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("clean-out"));

        Assert.Equal(1, answer.Value("packages"));
        Assert.Equal(Verdict.Warning, answer.Findings.Single(f => f.Code == "store").Verdict);
    }

    [Fact]
    public void CleanOut_FullSystem_TakesOldFluidOutBeforeTheCleaner()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("clean-out", ("contentLitres", 420)));

        Assert.Equal(8.5, answer.Value("removeFirstLitres"), 9);
        Assert.Contains("8.5 L", answer.Findings.Single(f => f.Code == "remove").Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void CleanOut_HalfARinse_IsRefusedAtTheNumberOfRinses()
    {
        var fault = BenchRuns.Fault(BenchRuns.Run("clean-out", ("rinses", 1.5m)));

        Assert.Equal(("rinses", FieldProblem.DoesNotFit, "Accepted are whole numbers"), (fault.Field, fault.Problem, fault.Detail));
    }

    [Fact]
    public void Skimmer_WorkedExample_Agrees()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("skimmer"));

        Assert.Equal(4.8, answer.Value("hoursPerDay"), 9);
        Assert.Equal(0.48, answer.Value("oilLitresPerDay"), 9);
        Assert.Equal(0.12, answer.Value("emulsifiedLitresPerDay"), 9);
        Assert.Equal(Verdict.InRange, answer.Findings[0].Verdict);
    }

    [Fact]
    public void Skimmer_MoreThanADayOfHours_IsTooSmall() =>
        Assert.Equal(Verdict.Action, Assert.Single(BenchRuns.Answer(BenchRuns.Run("skimmer", ("skimmerLitresPerHour", 0.019m))).Findings).Verdict);

    [Fact]
    public void NextInterval_WorkedExample_GoesHalfTheWay()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("next-interval"));

        Assert.Equal(10.5, answer.Value("nextDays"), 9);
        Assert.Equal("a = 14 × 1 / 2 = 7 d; between 2 and 30: 7 d", answer.Steps[0].Numbers);
    }

    [Fact]
    public void NextInterval_NothingFound_AimsAtTheLongest() =>
        Assert.Equal(22, BenchRuns.Answer(BenchRuns.Run("next-interval", ("found", 0))).Value("nextDays"), 9);

    [Fact]
    public void Shutdown_WorkedExample_Agrees()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("shutdown"));

        Assert.Equal((272, 6.6, 14), (answer.Value("expectedLitres"), answer.Rounded("expectedPercent"), answer.Value("circulationHours")));
        Assert.Equal(["skimBefore", "circulate", "testAfter"], answer.Findings.Select(f => f.Code));
    }

    [Fact]
    public void Shutdown_ADayOff_AsksForNothing() =>
        Assert.Equal(Verdict.InRange, Assert.Single(BenchRuns.Answer(BenchRuns.Run("shutdown", ("idleDays", 1), ("skimFromDays", 2))).Findings).Verdict);

    [Fact]
    public void Shutdown_OfMonths_DrainsBefore() =>
        Assert.Equal("drain", Assert.Single(BenchRuns.Answer(BenchRuns.Run("shutdown", ("idleDays", 60))).Findings).Code);

    [Fact]
    public void Shutdown_SomethingWrongAlready_TestsBeforeAndAfter() =>
        Assert.Equal(["testBefore", "testAfter"], BenchRuns.Answer(BenchRuns.RunChosen("shutdown", "isSomethingWrong", "yes", ("idleDays", 1), ("skimFromDays", 2))).Findings.Select(f => f.Code));
}
