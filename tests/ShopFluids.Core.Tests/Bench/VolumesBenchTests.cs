using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Database;
using Xunit;

namespace ShopFluids.Core.Tests.Bench;

/// <summary>The bench gives what the worked examples of docs/calculations/volumes.md give.</summary>
public sealed class VolumesBenchTests
{
    private static readonly (string, decimal)[] BoxOfTheGuide = [("lengthMm", 1200), ("widthMm", 600), ("brimMm", 400), ("displacedLitres", 28)];

    [Theory]
    [InlineData(150, 75)]
    [InlineData(200, 112)]
    public void LShapedSump_WorkedExample_Agrees(int levelMm, double litres) =>
        Assert.Equal(litres, BenchRuns.Answer(BenchRuns.Run("l-shaped-sump", ("levelMm", levelMm))).Value("volumeLitres"), 9);

    [Fact]
    public void LShapedSump_ShelfAboveTheBrim_IsRefusedAtTheShelf() =>
        Assert.Equal("shelfBottomMm", BenchRuns.Fault(BenchRuns.Run("l-shaped-sump", ("shelfBottomMm", 500))).Field);

    [Theory]
    [InlineData(150, 23)]
    [InlineData(300, 76)]
    [InlineData(500, 172)]
    public void HopperSump_WorkedExample_Agrees(int levelMm, double litres) =>
        Assert.Equal(litres, BenchRuns.Answer(BenchRuns.Run("hopper-sump", ("levelMm", levelMm))).Value("volumeLitres"), 9);

    [Fact]
    public void HopperSump_BottomWiderThanAbove_IsRefusedAtTheBottom()
    {
        var fault = BenchRuns.Fault(BenchRuns.Run("hopper-sump", ("bottomLengthMm", 900)));

        Assert.Equal(("bottomLengthMm", FieldProblem.DoesNotFit), (fault.Field, fault.Problem));
    }

    [Fact]
    public void Drum_HalfFull_IsHalfOfTheCylinder()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("drum", ("levelMm", 425)));

        Assert.Equal(Math.PI * 570 * 570 * 425 / 4e6, answer.Value("volumeLitres"), 9);
        Assert.Equal(2 * answer.Value("volumeLitres"), answer.Value("brimLitres"), 9);
    }

    [Fact]
    public void LyingTank_QuarterOfItsHeight_HoldsWhatTheGuideSays() =>
        Assert.Equal(307.1, BenchRuns.Answer(BenchRuns.Run("lying-tank")).Rounded("volumeLitres"));

    [Fact]
    public void RunningLevel_WorkedExample_Agrees()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("running-level", [.. BoxOfTheGuide, ("runningLevelMm", 250)]));

        Assert.Equal((290.1, 359.9, 26.1), (answer.Rounded("stoppedLevelMm"), answer.Rounded("highestRunningLevelMm"), answer.Rounded("inFlightLitres")));
        Assert.Equal(2, Assert.IsType<BenchSumps>(answer.Picture).Sumps.Count);
    }

    [Fact]
    public void RunningLevel_WouldOverflow_IsRefusedAtWhatTheMachineHolds() =>
        Assert.Equal("machineLitres", BenchRuns.Fault(BenchRuns.Run("running-level", [.. BoxOfTheGuide, ("runningLevelMm", 380)])).Field);
}
