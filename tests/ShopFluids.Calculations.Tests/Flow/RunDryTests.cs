using FsCheck.Xunit;
using ShopFluids.Calculations.Flow;
using ShopFluids.Calculations.Volumes;
using Xunit;

namespace ShopFluids.Calculations.Tests.Flow;

public sealed class RunDryTests
{
    private static readonly RectangularSump Box = new(1000, 500, 400);
    private static readonly FlowRate Pump = FlowRate.FromLitresPerMinute(60);

    // The worked example of docs/calculations/flow.md.
    [Fact]
    public void Check_SumpOfAMachiningCentre_MatchesTheWorkedExample()
    {
        var check = RunDry.Check(Box, 150, 80, Pump, 20, 12);
        Assert.Equal(new RunDryCheck(35, 32, 3, 35, 72, 144), check);
        Assert.True(check.IsEnough);
    }

    [Fact]
    public void Check_JustEnoughAndJustNot_Differ()
    {
        Assert.True(RunDry.Check(Box, 144, 80, Pump, 20, 12).IsEnough);
        Assert.False(RunDry.Check(Box, 143.9, 80, Pump, 20, 12).IsEnough);
        Assert.Equal(0, RunDry.Check(Box, 79, 80, Pump, 20, 12).UsableLitres);
        Assert.Equal(0, RunDry.Check(Box, 79, 80, Pump, 20, 12).SecondsToRunDry);
    }

    [Fact]
    public void Check_EvenFullTooSmall_HasNoLevelToStartAt()
    {
        var check = RunDry.Check(Box, 400, 80, Pump, 200, 0);
        Assert.Equal(240, check.SmallestSumpLitres, 9);
        Assert.Null(check.RefuseStartBelowMm);
        Assert.False(check.IsEnough);
        Assert.Equal(400, RunDry.Check(Box, 400, 80, Pump, 160, 0).RefuseStartBelowMm!.Value, 9);
    }

    [Fact]
    public void Check_PumpStandsStill_NeverRunsDry()
    {
        var check = RunDry.Check(Box, 100, 80, default, 20, 5);
        Assert.Null(check.SecondsToRunDry);
        Assert.Equal((5, 90), (check.NeededLitres, check.RefuseStartBelowMm!.Value));
    }

    [Property(MaxTest = 20_000, Replay = "20260101,20260103")]
    public void Check_AtTheLevelToRefuseBelow_HasNothingToSpare(ushort level, ushort intake, byte flow, byte seconds, byte holdUp)
    {
        var (now, mouth) = (level * 400.0 / ushort.MaxValue, intake * 400.0 / ushort.MaxValue);
        var check = RunDry.Check(Box, now, mouth, FlowRate.FromLitresPerMinute(flow), seconds, holdUp);
        Assert.Equal(check.UsableLitres, check.SpareLitres + check.NeededLitres, 9);
        if (check.RefuseStartBelowMm is { } start)
        {
            Assert.Equal(0, RunDry.Check(Box, start, mouth, FlowRate.FromLitresPerMinute(flow), seconds, holdUp).SpareLitres, 6);
            Assert.True(check.IsEnough == now >= start || Math.Abs(now - start) < 1e-6 || now < mouth);
        }
        else
        {
            Assert.False(check.IsEnough);
        }
    }

    [Fact]
    public void Inputs_OutOfRange_AreRefusedByName()
    {
        Assert.Throws<ArgumentNullException>("geometry", () => RunDry.Check(null!, 1, 1, Pump, 1, 1));
        Assert.Throws<ArgumentOutOfRangeException>("levelMm", () => RunDry.Check(Box, 401, 1, Pump, 1, 1));
        Assert.Throws<ArgumentOutOfRangeException>("intakeMm", () => RunDry.Check(Box, 1, -1, Pump, 1, 1));
        Assert.Throws<ArgumentOutOfRangeException>("pump", () => RunDry.Check(Box, 1, 1, FlowRate.FromLitresPerMinute(0.0009), 1, 1));
        Assert.Throws<ArgumentOutOfRangeException>("roundTripSeconds", () => RunDry.Check(Box, 1, 1, Pump, 86_401, 1));
        Assert.Throws<ArgumentOutOfRangeException>("holdUpLitres", () => RunDry.Check(Box, 1, 1, Pump, 1, -1));
        Assert.Throws<ArgumentOutOfRangeException>("holdUpLitres", () => RunDry.Check(Box, 1, 1, Pump, 1, 1_000_001));
    }
}
