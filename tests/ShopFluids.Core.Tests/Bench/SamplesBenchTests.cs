using ShopFluids.Core.Bench.Answers;
using ShopFluids.Rules;
using Xunit;

namespace ShopFluids.Core.Tests.Bench;

/// <summary>The bench gives what the worked examples of docs/calculations/concentration.md and bacteria.md give.</summary>
public sealed class SamplesBenchTests
{
    [Fact]
    public void AcidSplit_WorkedExample_Agrees()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("acid-split"));

        Assert.Equal((7.2, 6, 1.1), (answer.Rounded("percent"), answer.Rounded("layerPercent"), answer.Rounded("trampOilPercent")));
        Assert.Equal((0.2, 0.3), (Plus(answer, "percent"), Plus(answer, "trampOilPercent")));
        Assert.Contains(answer.Findings, f => f is { Code: "acid", Verdict: Verdict.Warning });
    }

    [Fact]
    public void AcidSplit_LessOilThanTheCoolantBrings_SaysThatANumberIsWrong() =>
        Assert.Contains(BenchRuns.Answer(BenchRuns.Run("acid-split", ("titrationPercent", 12))).Findings, f => f is { Code: "negative", Verdict: Verdict.Warning });

    [Fact]
    public void AcidSplit_WithoutTitration_TellsNoTrampOil()
    {
        var typed = BenchRuns.Usual(BenchRuns.Calculator("acid-split"));
        typed.Remove("titrationPercent");

        var answer = BenchRuns.Answer(BenchRuns.Calculator("acid-split").Run(typed, BenchRuns.Format));

        Assert.DoesNotContain(answer.Figures, f => f.Output.Code == "trampOilPercent");
        Assert.Equal(7.2, answer.Value("percent"), 9);
    }

    [Fact]
    public void TwoMethods_WorkedExample_RefractometerReadsHigh()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("two-methods"));

        Assert.Equal(1.2, answer.Value("ratio"), 9);
        Assert.Equal(0.07, answer.Figures[0].Uncertainty!.Value, 2);
        Assert.Equal("The refractometer reads higher: it takes oil or dirt for coolant", answer.Findings[0].Sentence);
        Assert.Equal(0.15, answer.Value("drift"), 9);
        Assert.Equal(Verdict.Warning, answer.Findings[1].Verdict);
    }

    [Fact]
    public void TwoMethods_WithinTheirUncertainty_Agree() =>
        Assert.Equal([Verdict.InRange, Verdict.InRange], BenchRuns.Answer(BenchRuns.Run("two-methods", ("refractometerPercent", 7.7m))).Findings.Select(f => f.Verdict));

    [Fact]
    public void Bacteria_WorkedExample_Agrees()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("bacteria-growth"));

        Assert.Equal((25.3, 17.9, 42.9), (answer.Rounded("doublingHours"), answer.Rounded("shortestDoublingHours"), answer.Rounded("longestDoublingHours")));
        Assert.Equal(24 * 2.0 / 168, answer.Value("log10PerDay"), 9);
        Assert.Equal((0, Verdict.Action), (answer.Value("hoursToPoor"), answer.Findings[0].Verdict));
    }

    [Fact]
    public void Bacteria_RiseWithinTheSlides_GivesNoDoublingTime()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("bacteria-growth", ("secondCfu", 30_000)));

        Assert.DoesNotContain(answer.Figures, f => f.Output.Code == "doublingHours");
        Assert.Contains(answer.Findings, f => f.Code == "rise");
    }

    [Theory]
    [InlineData("current", Verdict.InRange)]
    [InlineData("hse2006", Verdict.Warning)]
    public void Bacteria_FiveThousand_IsJudgedByTheBandsChosen(string bands, Verdict verdict) =>
        Assert.Equal(verdict, BenchRuns.Answer(BenchRuns.RunChosen("bacteria-growth", "bands", bands, ("secondCfu", 5000))).Findings[0].Verdict);

    private static double Plus(BenchAnswer answer, string output) => Math.Round(answer.Figures.Single(f => f.Output.Code == output).Uncertainty!.Value, 1);
}
