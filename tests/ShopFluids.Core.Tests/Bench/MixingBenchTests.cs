using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Database;
using ShopFluids.Rules;
using Xunit;

namespace ShopFluids.Core.Tests.Bench;

/// <summary>The bench gives what the worked examples of docs/calculations give.</summary>
public sealed class MixingBenchTests
{
    [Fact]
    public void Refractometer_WorkedExample_Agrees()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("refractometer", ("brix", 5.0m), ("temperatureCelsius", 25), ("waterBrix", 0.2m), ("factor", 1.6m)));

        Assert.Equal(8.24, answer.Value("percent"), 2);
        Assert.Equal(5.35, answer.Value("brix20"), 2);
        Assert.Equal(0.40, answer.Figures.Single(f => f.Output.Code == "percent").Uncertainty!.Value, 2);
        Assert.Equal("c = 1.6 × (5.35 − 0.2) = 8.24 %", answer.Steps[^1].Numbers);
    }

    [Fact]
    public void Titration_WorkedExample_Agrees() =>
        Assert.Equal(5.8, BenchRuns.Answer(BenchRuns.Run("titration")).Value("percent"), 6);

    [Theory]
    [InlineData("parts", 20, 4.7619)]
    [InlineData("oneIn", 20, 5)]
    [InlineData("percent", 20, 20)]
    public void Ratio_TwentySpokenThreeWays_IsThreeMixes(string meant, int number, double percent)
    {
        var typed = BenchRuns.Usual(BenchRuns.Calculator("ratio"));
        typed["meant"] = new Core.Bench.Inputs.BenchTyped(meant, null);
        typed["number"] = BenchRuns.Number(number);

        Assert.Equal(percent, BenchRuns.Answer(BenchRuns.Calculator("ratio").Run(typed, BenchRuns.Format)).Value("percent"), 4);
    }

    [Fact]
    public void FreshMix_TwentyLitresAtEight_IsMeasuredOutToTheStep()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("fresh-mix"));

        Assert.Equal((1.6, 18.4), (answer.Value("concentrateLitres"), answer.Value("waterLitres")));
        Assert.Equal(8, answer.Value("expectedPercent"), 9);
    }

    [Fact]
    public void TopUp_LeanestMixEndsHigh_SaysBothAndDrawsBeforeAndAfter()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("top-up"));

        Assert.Equal((11.4, 0.7), (answer.Value("waterLitres"), answer.Value("concentrateLitres")));
        Assert.Equal(8.2, answer.Value("expectedPercent"), 1);
        Assert.Equal(Verdict.Warning, answer.Findings.Single(f => f.Code == "ends").Verdict);
        Assert.Contains("5.0 %", answer.Findings.Single(f => f.Code == "why").Sentence, StringComparison.Ordinal);
        var picture = Assert.IsType<BenchSumps>(answer.Picture);
        Assert.Equal([147.9, answer.Value("expectedLitres")], picture.Sumps.Select(s => s.FluidLitres));
    }

    [Fact]
    public void TopUp_FilledAboveTheBrim_IsRefusedAtTheFieldWithTheRange()
    {
        var fault = BenchRuns.Fault(BenchRuns.Run("top-up", ("targetVolumeLitres", 500)));

        Assert.Equal(("targetVolumeLitres", FieldProblem.DoesNotFit), (fault.Field, fault.Problem));
        Assert.Equal("Accepted are 58 to 180 L (pump intake to brim)", fault.Detail);
    }

    [Fact]
    public void DilutionSwapAndBlend_SmallNumbers_Agree()
    {
        // 150 L at 11 % hold 16.5 L of concentrate; at 8 % they fill 206.25 L.
        Assert.Equal(56.25, BenchRuns.Answer(BenchRuns.Run("dilution")).Value("addLitres"), 6);

        // 160 L at 5 % lack 4.8 L; each litre swapped for 12 % brings 0.07 L.
        Assert.Equal(480.0 / 7, BenchRuns.Answer(BenchRuns.Run("swap")).Value("exchangeLitres"), 6);

        // Between 3 and 12 %, 8 % lies five ninths up.
        Assert.Equal(500.0 / 9, BenchRuns.Answer(BenchRuns.Run("blend")).Value("highLitres"), 6);
    }

    [Fact]
    public void SumpVolume_Box_IsLengthTimesWidthTimesLevel() =>
        Assert.Equal(900 * 525 * 313 / 1e6, BenchRuns.Answer(BenchRuns.Run("sump-volume")).Value("volumeLitres"), 6);

    [Fact]
    public void Several_WorkedExample_GivesVolumeStrengthAndUncertainty()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("blend-of-several", ("volumeUncertaintyLitres", 2), ("concentrationUncertaintyPercent", 0.2m)));

        Assert.Equal((200.0, 5.0, 10.0), (answer.Value("blendLitres"), Math.Round(answer.Value("blendPercent"), 9), Math.Round(answer.Value("concentrateLitres"), 9)));
        Assert.Equal(3.5, answer.Figures[0].Uncertainty ?? 0, 1);
        Assert.Equal(0.17, answer.Figures[1].Uncertainty ?? 0, 2);
        Assert.Equal("V = 150 + 40 + 10 = 200 L", answer.Steps[0].Numbers);
        Assert.Equal("c = (4 × 150 + 10 × 40 + 0 × 10) / 200 = 5 %", answer.Steps[1].Numbers);
    }

    [Fact]
    public void Several_FewerConcentrationsThanVolumes_IsRefusedAtTheField()
    {
        var typed = BenchRuns.Usual(BenchRuns.Calculator("blend-of-several"));
        typed["concentrationsPercent"] = BenchRuns.Series([4, 10]);

        var fault = BenchRuns.Fault(BenchRuns.Calculator("blend-of-several").Run(typed, BenchRuns.Format));

        Assert.Equal(("concentrationsPercent", FieldProblem.DoesNotFit), (fault.Field, fault.Problem));
        Assert.Contains("3 volumes and 2 concentrations", fault.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public void Several_NothingOfAnyLiquid_IsRefusedAtTheVolumes()
    {
        var typed = BenchRuns.Usual(BenchRuns.Calculator("blend-of-several"));
        typed["volumesLitres"] = BenchRuns.Series([0, 0, 0]);

        Assert.Equal("volumesLitres", BenchRuns.Fault(BenchRuns.Calculator("blend-of-several").Run(typed, BenchRuns.Format)).Field);
    }
}
