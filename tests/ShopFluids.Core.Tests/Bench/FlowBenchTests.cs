using ShopFluids.Calculations.Volumes;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Database;
using ShopFluids.Rules;
using Xunit;

namespace ShopFluids.Core.Tests.Bench;

/// <summary>The bench gives what the worked examples of docs/calculations/flow.md give.</summary>
public sealed class FlowBenchTests
{
    private static readonly (string, decimal)[] MachiningCentre =
    [
        ("lengthMm", 1000), ("widthMm", 500), ("brimMm", 400), ("levelMm", 150), ("intakeMm", 80),
        ("pumpLitresPerMinute", 60), ("roundTripSeconds", 20), ("machineLitres", 9), ("chipsLitres", 3),
    ];

    [Fact]
    public void RunDry_WorkedExample_Agrees()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("run-dry", MachiningCentre));

        Assert.Equal((35, 32, 3), (answer.Rounded("usableLitres"), answer.Rounded("neededLitres"), answer.Rounded("spareLitres")));
        Assert.Equal((35, 72, 144), (answer.Rounded("secondsToRunDry"), answer.Rounded("smallestLitres"), answer.Rounded("refuseStartBelowMm")));
        Assert.Equal(86, answer.Rounded("runningLevelMm"));
        Assert.Equal(Verdict.InRange, answer.Findings.Single(f => f.Code == "start").Verdict);
        Assert.Equal("F = 60 × 20 / 60 + 12 = 32 L", answer.Steps[0].Numbers);
    }

    [Fact]
    public void RunDry_DrawsTheSumpRunningWithWhatIsInFlightBesideIt()
    {
        var picture = Assert.IsType<BenchSumps>(BenchRuns.Answer(BenchRuns.Run("run-dry", MachiningCentre)).Picture);

        var sump = Assert.Single(picture.Sumps);
        Assert.Equal((43, 40), (sump.FluidLitres, sump.IntakeLitres));
        Assert.Contains(sump.Marks, m => m is { Name: "lowest to start", LevelMm: 144 });
        Assert.Equal([9, 20, 3], picture.Beside[0].Bars.Select(b => b.Value));
        Assert.Equal([20, 35], picture.Beside[1].Bars.Select(b => b.Value));
    }

    [Fact]
    public void RunDry_LevelTooLow_SaysHowMuchIsMissing()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("run-dry", [.. MachiningCentre, ("levelMm", 140)]));

        var start = answer.Findings.Single(f => f.Code == "start");
        Assert.Equal((Verdict.Action, "The pump will draw air: 2.0 L are missing"), (start.Verdict, start.Sentence));
    }

    [Fact]
    public void RunDry_PumpTooLargeForTheSump_NamesNoLevelToStartFrom()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("run-dry", [.. MachiningCentre, ("pumpLitresPerMinute", 900)]));

        Assert.DoesNotContain(answer.Figures, f => f.Output.Code == "refuseStartBelowMm");
        Assert.Contains("Even filled to the brim", answer.Findings.Single(f => f.Code == "lowest").Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void RunDry_LevelAboveTheBrim_IsRefusedAtTheLevel()
    {
        var fault = BenchRuns.Fault(BenchRuns.Run("run-dry", [.. MachiningCentre, ("levelMm", 500)]));

        Assert.Equal(("levelMm", FieldProblem.DoesNotFit), (fault.Field, fault.Problem));
    }

    [Fact]
    public void FlowUnits_TenUsGallonsAMinute_AreTheSameInEveryUnit()
    {
        var answer = BenchRuns.Answer(BenchRuns.RunChosen("flow-units", "unit", "usGallonsPerMinute", ("amount", 10)));

        Assert.Equal(37.85411784, answer.Value("litresPerMinute"), 9);
        Assert.Equal((10, 600), (answer.Rounded("usGallonsPerMinute"), answer.Rounded("usGallonsPerHour")));
        Assert.Equal(37.85411784 * 60 / 1000, answer.Value("cubicMetresPerHour"), 9);
        Assert.Equal(37.85411784 / 4.54609, answer.Value("imperialGallonsPerMinute"), 9);
    }

    [Fact]
    public void FlowUnits_MoreThanAFlowMayBe_IsRefusedAtTheAmount() =>
        Assert.Equal("amount", BenchRuns.Fault(BenchRuns.RunChosen("flow-units", "unit", "cubicMetresPerHour", ("amount", 10_000_000))).Field);

    [Fact]
    public void Turnovers_WorkedExample_Agrees()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("turnovers", ("volumeLitres", 132.489m), ("flowLitresPerMinute", 37.854m)));

        Assert.Equal((3.5, 17.1), (answer.Rounded("residenceMinutes"), answer.Rounded("turnoversPerHour")));
    }

    [Theory]
    [InlineData(49.9, Verdict.InRange)]
    [InlineData(95, Verdict.Warning)]
    [InlineData(120, Verdict.Action)]
    public void ReturnLine_WorkedExample_CarriesNearly100(double flow, Verdict verdict)
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("return-line", ("flowLitresPerMinute", (decimal)flow)));

        Assert.Equal(99.7, answer.Rounded("fullLitresPerMinute"));
        Assert.Equal(verdict, answer.Findings[0].Verdict);
    }

    [Fact]
    public void ReturnLine_HalfOfWhatItCarries_RunsHalfFull() =>
        Assert.Equal(50, BenchRuns.Answer(BenchRuns.Run("return-line", ("flowLitresPerMinute", 49.86m))).Value("depthPercent"), 0);

    [Fact]
    public void Nozzle_WorkedExample_Agrees()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("nozzle", ("nozzles", 3)));

        Assert.Equal(20, answer.Value("metresPerSecond"), 9);
        Assert.Equal(12.06, answer.Value("litresPerMinute"), 2);
        Assert.Equal(3 * answer.Value("litresPerMinute"), answer.Value("totalLitresPerMinute"), 9);
    }

    [Fact]
    public void PumpPoint_WorkedExample_MeetsAtSixtyAndEight()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("pump-point"));

        Assert.Equal(60, answer.Value("flowLitresPerMinute"), 6);
        Assert.Equal(8, answer.Value("headMetres"), 6);
        Assert.Equal(Verdict.InRange, Assert.Single(answer.Findings).Verdict);
        Assert.Equal(3, Assert.IsType<BenchCurves>(answer.Picture).Curves.Count);
    }

    [Theory]
    [InlineData(12, 12, Verdict.Action)]
    [InlineData(0, 0, Verdict.Warning)]
    public void PumpPoint_LiftTooHighOrNothingToFeed_SaysSo(int lift, int head, Verdict verdict) =>
        Assert.Equal(verdict, Assert.Single(BenchRuns.Answer(BenchRuns.Run("pump-point", ("staticHeadMetres", lift), ("knownHeadMetres", head))).Findings).Verdict);

    [Theory]
    [InlineData("0 40 80", "pumpHeadsMetres")]
    [InlineData("0 80 40 100", "pumpFlowsLitresPerMinute")]
    public void PumpPoint_PointsThatAreNoCurve_AreRefused(string flows, string field)
    {
        var typed = BenchRuns.Usual(BenchRuns.Calculator("pump-point"));
        typed["pumpFlowsLitresPerMinute"] = BenchRuns.Series([.. flows.Split(' ').Select(f => decimal.Parse(f, System.Globalization.CultureInfo.InvariantCulture))]);

        Assert.Equal(field, BenchRuns.Fault(BenchRuns.Calculator("pump-point").Run(typed, BenchRuns.Format)).Field);
    }

    [Fact]
    public void RiseAndSettle_WorkedExamples_Agree()
    {
        var oil = BenchRuns.Answer(BenchRuns.Run("rise-and-settle"));
        var steel = BenchRuns.Answer(BenchRuns.Run("rise-and-settle", ("diameterMicrometres", 20), ("densityKgPerCubicMetre", 7850)));
        var shallow = BenchRuns.Answer(BenchRuns.Run("rise-and-settle", ("depthMm", 63)));

        Assert.Equal((0.654, 459), (Math.Round(oil.Value("millimetresPerSecond"), 3), Math.Round(oil.Value("secondsToCross"))));
        Assert.Equal((1.49, 201), (Math.Round(steel.Value("millimetresPerSecond"), 2), Math.Round(steel.Value("secondsToCross"))));
        Assert.Equal(67.7, shallow.Rounded("smallestMicrometres"));
        Assert.Equal(("Too slow: it is pumped round before it has risen", "It settles in time"), (oil.Findings[0].Sentence, steel.Findings[0].Sentence));
    }

    [Fact]
    public void RunDry_SumpOfAnotherShape_IsWorkedOutFromItsTable()
    {
        var typed = BenchRuns.Usual(BenchRuns.Calculator("run-dry"));
        typed["tableLevelsMm"] = BenchRuns.Series([0, 100, 300, 400]);
        typed["tableLitres"] = BenchRuns.Series([0, 20, 120, 140]);
        typed["levelMm"] = BenchRuns.Number(300);
        typed["intakeMm"] = BenchRuns.Number(100);

        var answer = BenchRuns.Answer(BenchRuns.Calculator("run-dry").Run(typed, BenchRuns.Format));

        Assert.Equal(100, answer.Value("usableLitres"), 9);
        Assert.IsType<StrappingTableSump>(Assert.IsType<BenchSumps>(answer.Picture).Sumps[0].Shape);

        typed["tableLitres"] = BenchRuns.Series([0, 20, 20, 140]);
        Assert.Equal("tableLevelsMm", BenchRuns.Fault(BenchRuns.Calculator("run-dry").Run(typed, BenchRuns.Format)).Field);

        typed.Remove("tableLitres");
        Assert.Equal("tableLitres", BenchRuns.Fault(BenchRuns.Calculator("run-dry").Run(typed, BenchRuns.Format)).Field);
    }

    [Fact]
    public void RunDry_NeitherBoxNorTable_SaysWhatIsMissing()
    {
        var typed = BenchRuns.Usual(BenchRuns.Calculator("run-dry"));
        typed.Remove("widthMm");

        Assert.Equal("lengthMm", BenchRuns.Fault(BenchRuns.Calculator("run-dry").Run(typed, BenchRuns.Format)).Field);
    }
}
