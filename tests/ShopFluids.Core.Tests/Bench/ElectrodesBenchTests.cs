using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Database;
using ShopFluids.Rules;
using Xunit;

namespace ShopFluids.Core.Tests.Bench;

/// <summary>The bench gives what the worked example of docs/calculations/ph-electrode.md gives.</summary>
public sealed class ElectrodesBenchTests
{
    [Fact]
    public void Electrode_WorkedExample_Passes()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("ph-electrode"));

        Assert.Equal(98.60, answer.Value("slopePercent"), 2);
        Assert.Equal((58.3, -14.4), (answer.Rounded("slopeMillivoltsPerPh"), answer.Rounded("offsetMillivolts")));
        Assert.Equal(59.159, answer.Value("theoryMillivoltsPerPh"), 3);
        Assert.Equal("passes", Assert.Single(answer.Findings).Code);
        Assert.Equal("s = (−15 − 160) / (4.01 − 7.01) = 58.333 mV", answer.Steps[0].Numbers);
    }

    [Fact]
    public void Electrode_FlatSlope_FailsAndSaysWhatToDo()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("ph-electrode", ("firstMillivolts", 15)));

        Assert.Equal(81.70, answer.Value("slopePercent"), 2);
        Assert.Equal(["slope", "advice"], answer.Findings.Select(f => f.Code));
        Assert.Equal(Verdict.Action, answer.Findings[0].Verdict);
    }

    [Fact]
    public void Electrode_OffsetTooLarge_Fails() =>
        Assert.Equal(["offset", "advice"], BenchRuns.Answer(BenchRuns.Run("ph-electrode", ("firstMillivolts", 31), ("secondMillivolts", 205))).Findings.Select(f => f.Code));

    [Fact]
    public void Electrode_DrawsItsLineTheTheoryAndBothReadings()
    {
        var picture = Assert.IsType<BenchCurves>(BenchRuns.Answer(BenchRuns.Run("ph-electrode")).Picture);

        Assert.Equal([BenchCurveKind.Line, BenchCurveKind.Dashed, BenchCurveKind.Points], picture.Curves.Select(c => c.Kind));
        Assert.Equal([(4.01, 160.0), (7.01, -15.0)], picture.Curves[2].Points);
    }

    [Fact]
    public void Electrode_BuffersTooNearEachOther_IsRefusedAtTheSecond()
    {
        var fault = BenchRuns.Fault(BenchRuns.Run("ph-electrode", ("secondPh", 6.5m)));

        Assert.Equal(("secondPh", FieldProblem.DoesNotFit), (fault.Field, fault.Problem));
    }
}
