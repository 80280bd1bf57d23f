using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Database;
using ShopFluids.Rules;
using Xunit;

namespace ShopFluids.Core.Tests.Bench;

/// <summary>The charts of the bench that remember earlier readings give what the worked examples of statistics.md give.</summary>
public sealed class ChartBenchTests
{
    private static readonly decimal[] EwmaReadings = [52.0m, 47.0m, 53.0m, 49.3m, 50.1m, 47.0m, 51.0m, 50.1m, 51.2m, 50.5m, 49.6m, 47.6m, 49.9m, 51.3m, 47.8m, 51.2m, 52.6m, 52.4m, 53.6m, 52.1m];

    private static readonly decimal[] CusumReadings =
    [
        324.925m, 324.675m, 324.725m, 324.350m, 325.350m, 325.225m, 324.125m, 324.525m, 325.225m, 324.600m,
        324.625m, 325.150m, 328.325m, 327.250m, 327.825m, 328.500m, 326.675m, 327.775m, 326.875m, 328.350m,
    ];

    [Fact]
    public void Ewma_NistReadings_MatchTheHandbook()
    {
        var answer = BenchRuns.Answer(Run("ewma-chart", EwmaReadings, ("centre", 50), ("sigma", 2.0539m), ("weight", 0.3m), ("widthSigmas", 3)));

        Assert.Equal(51.988243, answer.Value("ewma"), 6);
        Assert.Equal((47.41157, 52.58843), (Math.Round(answer.Value("lowerLimit"), 5), Math.Round(answer.Value("upperLimit"), 5)));
        Assert.Equal(0, answer.Value("beyondLimits"));
        Assert.Equal(["chance"], answer.Findings.Select(f => f.Code));
        var rows = Assert.IsType<BenchTable>(answer.Table).Rows;
        Assert.Equal((20, 52.0, 50.6), (rows.Count, rows[0].Values[0], Math.Round(rows[0].Values[1], 9)));
        Assert.DoesNotContain(Assert.IsType<BenchCurves>(answer.Picture).Curves, c => c.Kind == BenchCurveKind.Rings);
    }

    [Fact]
    public void Ewma_SmallLastingShift_NamesAndRingsTheReadingsBeyond()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("ewma-chart", ("centre", 8.05m), ("sigma", 0.12m)));

        var table = Assert.IsType<BenchTable>(answer.Table);
        var beyond = Enumerable.Range(0, table.Rows.Count).Where(i => table.Rows[i].IsBeyond).ToList();
        Assert.Equal(answer.Value("beyondLimits"), beyond.Count);
        Assert.Equal(11, beyond[^1]);
        Assert.Contains("12", answer.Findings.Single(f => f.Code == "beyond").Sentence, StringComparison.Ordinal);
        var rings = Assert.IsType<BenchCurves>(answer.Picture).Curves.Single(c => c.Kind == BenchCurveKind.Rings);
        Assert.Equal(beyond.Select(i => i + 1.0), rings.Points.Select(p => p.X));
    }

    [Fact]
    public void Ewma_CentreAndSpreadLeftOut_TakesTheirs()
    {
        var answer = BenchRuns.Answer(Run("ewma-chart", [10, 12, 10, 12]));

        Assert.Equal(11, answer.Value("centreUsed"), 12);
        Assert.Equal(2 / 1.128, answer.Value("sigmaUsed"), 12);
    }

    [Theory, InlineData("ewma-chart"), InlineData("cusum-chart")]
    public void Run_ReadingsAllTheSame_AsksForTheSpread(string code)
    {
        var fault = BenchRuns.Fault(Run(code, [5, 5, 5]));

        Assert.Equal(("sigma", FieldProblem.DoesNotFit), (fault.Field, fault.Problem));
        Assert.Equal(0, BenchRuns.Answer(Run(code, [5, 5, 5], ("sigma", 0.1m))).Value("beyondLimits"));
    }

    [Fact]
    public void Cusum_NistReadings_SignalAtFourteenAndBeganAtThirteen()
    {
        var answer = BenchRuns.Answer(Run("cusum-chart", CusumReadings, ("target", 325), ("sigma", 0.635m), ("allowanceSigmas", 0.5m), ("decisionSigmas", 4.1959m / 0.635m)));

        Assert.Equal(19.035, answer.Value("highSum"), 9);
        Assert.Equal(4.1959, answer.Value("decisionLimit"), 9);
        Assert.Equal(7, answer.Value("beyondLimits"));
        var finding = answer.Findings.Single(f => f.Code == "shift");
        Assert.Equal((Verdict.Warning, "Shifted up: seen at reading 14, began about reading 13."), (finding.Verdict, finding.Sentence));
        Assert.Equal(4.94, Assert.IsType<BenchTable>(answer.Table).Rows[13].Values[1], 9);
    }

    [Fact]
    public void Cusum_ShiftDownwards_SaysSo()
    {
        var answer = BenchRuns.Answer(Run("cusum-chart", [0, 0, -1, -1, -1, -1], ("target", 0), ("sigma", 1), ("allowanceSigmas", 0.5m), ("decisionSigmas", 1)));

        Assert.Equal("Shifted down: seen at reading 5, began about reading 3.", answer.Findings.Single(f => f.Code == "shift").Sentence);
        Assert.Equal(2, answer.Value("lowSum"), 12);
    }

    [Fact]
    public void Individuals_FarReading_IsRinged()
    {
        var rings = Assert.IsType<BenchCurves>(BenchRuns.Answer(BenchRuns.Run("individuals-chart")).Picture).Curves.Single(c => c.Kind == BenchCurveKind.Rings);

        Assert.Equal((12.0, 9.1), Assert.Single(rings.Points));
    }

    private static Result<BenchAnswer> Run(string code, decimal[] values, params (string Code, decimal Value)[] numbers)
    {
        var calculator = BenchRuns.Calculator(code);
        var typed = BenchRuns.Usual(calculator);
        typed["values"] = BenchRuns.Series(values);
        foreach (var (input, value) in numbers)
        {
            typed[input] = BenchRuns.Number(value);
        }

        return calculator.Run(typed, BenchRuns.Format);
    }
}
