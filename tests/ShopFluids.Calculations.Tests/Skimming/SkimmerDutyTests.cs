using FsCheck.Xunit;
using ShopFluids.Calculations.Skimming;
using Xunit;

namespace ShopFluids.Calculations.Tests.Skimming;

public sealed class SkimmerDutyTests
{
    // The worked example of docs/calculations/skimming.md.
    [Fact]
    public void FromWayOil_MachiningCentre_MatchesTheWorkedExample()
    {
        var duty = SkimmerDuty.FromWayOil(0.8, 0.75, 0.2, 0.1);
        Assert.Equal(0.48, duty.OilLitresPerDay, 12);
        Assert.Equal(0.12, duty.EmulsifiedLitresPerDay, 12);
        Assert.Equal(4.8, duty.HoursPerDay, 12);
        Assert.True(duty.IsEnough);
    }

    [Theory]
    [InlineData(24, true)]
    [InlineData(24.001, false)]
    public void IsEnough_AroundTheDay_IsJudged(double oil, bool expected) =>
        Assert.Equal(expected, SkimmerDuty.FromWayOil(oil, 1, 0, 1).IsEnough);

    [Property(MaxTest = 100_000, Replay = "20260101,20260103")]
    public void FromWayOil_AnyShares_LosesNoOil(ushort oil, byte reaching, byte emulsified)
    {
        var duty = SkimmerDuty.FromWayOil(oil / 100.0, reaching / 255.0, emulsified / 255.0, 2);
        Assert.Equal(oil / 100.0 * reaching / 255, duty.OilLitresPerDay + duty.EmulsifiedLitresPerDay, 9);
        Assert.Equal(duty.OilLitresPerDay, 2 * duty.HoursPerDay, 9);
        Assert.True(duty.OilLitresPerDay >= 0 && duty.EmulsifiedLitresPerDay >= 0);
    }

    [Fact]
    public void Inputs_OutOfRange_AreRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("wayOilLitresPerDay", () => SkimmerDuty.FromWayOil(10_001, 1, 0, 1));
        Assert.Throws<ArgumentOutOfRangeException>("shareReachingSump", () => SkimmerDuty.FromWayOil(1, 1.1, 0, 1));
        Assert.Throws<ArgumentOutOfRangeException>("shareEmulsified", () => SkimmerDuty.FromWayOil(1, 1, -0.1, 1));
        Assert.Throws<ArgumentOutOfRangeException>("shareEmulsified", () => SkimmerDuty.FromWayOil(1, 1, 1.1, 1));
        Assert.Throws<ArgumentOutOfRangeException>("skimmerLitresOfOilPerHour", () => SkimmerDuty.FromWayOil(1, 1, 0, 0));
        Assert.Equal(0, SkimmerDuty.FromWayOil(1, 1, 1, 0.0001).HoursPerDay, 12);
    }
}
