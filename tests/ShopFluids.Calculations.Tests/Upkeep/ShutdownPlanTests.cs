using ShopFluids.Calculations.Upkeep;
using Xunit;

namespace ShopFluids.Calculations.Tests.Upkeep;

public sealed class ShutdownPlanTests
{
    private static readonly ShutdownLimits Limits = new();

    // The worked example of docs/calculations/upkeep.md.
    [Fact]
    public void For_TwoWeeks_MatchesTheWorkedExample()
    {
        var plan = ShutdownPlan.For(14, Sump(300, percent: 6, evaporation: 2), Limits);
        Assert.Equal(new ShutdownPlan(true, false, false, false, false, 14, true, 272, plan.ExpectedPercent, false), plan);
        Assert.Equal(6.618, plan.ExpectedPercent, 3);
        Assert.Equal(300 * 6, plan.ExpectedLitres * plan.ExpectedPercent, 6);
    }

    [Theory]
    [InlineData(0, false, false, 0)]
    [InlineData(1, true, false, 0)]
    [InlineData(2, true, true, 0)]
    [InlineData(3, true, true, 3)]
    [InlineData(59, true, true, 59)]
    public void For_DaysOnALimit_ReachIt(int days, bool skim, bool testAfter, double circulation)
    {
        var plan = ShutdownPlan.For(days, Sump(300), Limits);
        Assert.Equal((skim, testAfter, circulation, false), (plan.SkimBefore, plan.TestAfter, plan.CirculationHours, plan.DrainBefore));
    }

    [Fact]
    public void For_LongerThanAFluidStands_IsDrainedInstead()
    {
        var plan = ShutdownPlan.For(60, Sump(300, percent: 1, flag: true), Limits);
        Assert.Equal(new ShutdownPlan(false, false, false, false, true, 0, false, 300, 1, false), plan);
    }

    [Theory]
    [InlineData(4.9, true)]
    [InlineData(5, false)]
    [InlineData(8, false)]
    [InlineData(8.1, true)]
    public void For_ConcentrationOutside_IsAdjustedBeforeAndAfter(double percent, bool adjust)
    {
        var plan = ShutdownPlan.For(5, Sump(300, percent: percent), Limits);
        Assert.Equal((adjust, adjust), (plan.AdjustBefore, plan.AdjustAfter));
    }

    [Fact]
    public void For_ConcentratesPastTheLimitWhileIdle_IsAdjustedAfterOnly()
    {
        var plan = ShutdownPlan.For(10, Sump(300, percent: 7.5, evaporation: 3), Limits);
        Assert.Equal((false, true), (plan.AdjustBefore, plan.AdjustAfter));
    }

    [Theory]
    [InlineData(10, false)]
    [InlineData(10.01, true)]
    public void For_PumpWouldBeUncovered_IsToppedUpBefore(double evaporation, bool topUp) =>
        Assert.Equal(topUp, ShutdownPlan.For(10, Sump(200, evaporation: evaporation), Limits).TopUpBefore);

    [Fact]
    public void For_FlaggedSump_IsTestedBeforeAndAfterEvenForADay()
    {
        var plan = ShutdownPlan.For(1, Sump(300, flag: true), Limits);
        Assert.True(plan.TestBefore && plan.TestAfter);
        Assert.False(ShutdownPlan.For(1, Sump(300), Limits).TestBefore);
        var none = ShutdownPlan.For(0, Sump(90, percent: 1, flag: true), new ShutdownLimits(0, 0, 0, 0));
        Assert.Equal(new ShutdownPlan(false, false, false, false, false, 0, false, 90, 1, true), none);
    }

    [Fact]
    public void For_MoreThanItsWater_DriesUpToTheProduct()
    {
        var plan = ShutdownPlan.For(50, Sump(300, percent: 6, evaporation: 100), Limits);
        Assert.Equal((18, 100), (plan.ExpectedLitres, plan.ExpectedPercent));
        var water = ShutdownPlan.For(50, Sump(300, percent: 0, evaporation: 100), Limits);
        Assert.Equal((0, 0), (water.ExpectedLitres, water.ExpectedPercent));
    }

    [Fact]
    public void For_OwnLimits_AreKept()
    {
        var plan = ShutdownPlan.For(4, Sump(300), new ShutdownLimits(5, 5, 4, 5, 0.5));
        Assert.Equal((false, false, 2), (plan.SkimBefore, plan.TestAfter, plan.CirculationHours));
        Assert.True(ShutdownPlan.For(5, Sump(300), new ShutdownLimits(5, 5, 4, 5, 0.5)).DrainBefore);
    }

    [Fact]
    public void Inputs_OutOfRange_AreRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("idleDays", () => ShutdownPlan.For(-1, Sump(300), Limits));
        Assert.Throws<ArgumentOutOfRangeException>("idleDays", () => ShutdownPlan.For(3651, Sump(300), Limits));
        Assert.Throws<ArgumentNullException>("sump", () => ShutdownPlan.For(1, null!, Limits));
        Assert.Throws<ArgumentNullException>("limits", () => ShutdownPlan.For(1, Sump(300), null!));
        Assert.Throws<ArgumentOutOfRangeException>("SkimFromDays", () => new ShutdownLimits(-1));
        Assert.Throws<ArgumentOutOfRangeException>("TestAfterFromDays", () => new ShutdownLimits(1, 3651));
        Assert.Throws<ArgumentOutOfRangeException>("CirculateFromDays", () => new ShutdownLimits(1, 1, -1));
        Assert.Throws<ArgumentOutOfRangeException>("DrainFromDays", () => new ShutdownLimits(1, 1, 1, -1));
        Assert.Throws<ArgumentOutOfRangeException>("CirculateHoursPerDay", () => new ShutdownLimits(1, 1, 1, 1, 24.1));
        Assert.Equal(3650, new ShutdownLimits(3650).SkimFromDays);
        Assert.Throws<ArgumentOutOfRangeException>("VolumeLitres", () => Sump(401));
        Assert.Throws<ArgumentOutOfRangeException>("Percent", () => Sump(300, percent: 101));
        Assert.Throws<ArgumentOutOfRangeException>("IdleEvaporationLitresPerDay", () => Sump(300, evaporation: -1));
        Assert.Throws<ArgumentOutOfRangeException>("BrimLitres", () => new IdleSump(1, 0, 0, 5, 5, 8, 1, false));
        Assert.Throws<ArgumentOutOfRangeException>("IntakeLitres", () => new IdleSump(1, 2, 3, 5, 5, 8, 1, false));
        Assert.Throws<ArgumentOutOfRangeException>("LowestPercent", () => new IdleSump(1, 2, 1, 5, -1, 8, 1, false));
        Assert.Throws<ArgumentOutOfRangeException>("HighestPercent", () => new IdleSump(1, 2, 1, 5, 5, 4, 1, false));
    }

    private static IdleSump Sump(double volume, double percent = 6, double evaporation = 0, bool flag = false) =>
        new(volume, 400, 100, percent, 5, 8, evaporation, flag);
}
