using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using ShopFluids.Calculations.Forecasts;
using ShopFluids.Calculations.Statistics;
using Xunit;

namespace ShopFluids.Calculations.Tests.Forecasts;

[Properties(MaxTest = 100_000, Replay = "20260101,20260103", Arbitrary = [typeof(NextTestTests)])]
public sealed class NextTestTests
{
    public sealed record Wish(StraightLine? Line, LimitBand Limits, double Last, double Floor, double Ceiling, double Risk);

    // pH 9.2 falling by 0.01 a day, s = 0.05: weekly readings of five weeks. The worked example of docs/calculations/forecast.md.
    private static readonly StraightLine Falling =
        StraightLine.Fit(Series.From([0, 7, 14, 21, 28], [9.20, 9.10, 9.10, 8.95, 8.95]));

    public static Arbitrary<Wish> Wishes() =>
        Gen.Choose(0, 1000).ArrayOf(12).Select(n =>
        {
            var days = Enumerable.Range(0, 4).Select(i => 7.0 * i).ToArray();
            var line = n[0] == 0 ? null : StraightLine.Fit(Series.From(days, [.. days.Select((_, i) => n[1 + i] / 100.0)]));
            var ceiling = 1 + (n[5] % 30);
            return new Wish(line, new(n[6] / 100.0, (n[6] / 100.0) + (n[7] / 50.0)), 21 + (n[8] % 10), ceiling * (n[9] / 1000.0), ceiling, 0.0001 + (n[10] / 2100.0));
        }).ToArbitrary();

    [Fact]
    public void Plan_FallingPh_MatchesTheWorkedExample()
    {
        var test = NextTest.Plan(Falling, new(8.5, 9.5), 28, 2, 30);
        Assert.Equal(NextTestReason.Risk, test.Reason);
        Assert.Equal(0.05, test.Risk ?? 0, tolerance: 1e-4);
        Assert.Equal(53.1116, test.Day, tolerance: 0.001);
        Assert.True(OutOfLimits.ProbabilityAt(Falling, new(8.5, 9.5), test.Day - 0.001) < 0.05);
        Assert.True(test.Risk >= 0.05);
    }

    [Fact]
    public void Plan_RiskyAlready_IsTheFloor()
    {
        var test = NextTest.Plan(Falling, new(8.94, 9.5), 28, 2, 30);
        Assert.Equal(new NextTest(30, NextTestReason.Floor, OutOfLimits.ProbabilityAt(Falling, new(8.94, 9.5), 30)), test);
    }

    [Fact]
    public void Plan_RiskAsHighAsAccepted_IsTakenAsRisky()
    {
        var limits = new LimitBand(8.5, 9.5);
        double RiskOn(double day) => OutOfLimits.ProbabilityAt(Falling, limits, day);
        Assert.Equal(new NextTest(50, NextTestReason.Floor, RiskOn(50)), NextTest.Plan(Falling, limits, 28, 22, 30, RiskOn(50)));

        // On a day of the search and half a day before one.
        Assert.Equal(new NextTest(52, NextTestReason.Risk, RiskOn(52)), NextTest.Plan(Falling, limits, 28, 22, 30, RiskOn(52)));
        Assert.Equal(new NextTest(51.5, NextTestReason.Risk, RiskOn(51.5)), NextTest.Plan(Falling, limits, 28, 22, 30, RiskOn(51.5)));
    }

    [Fact]
    public void Plan_SafeForLong_IsTheCeiling()
    {
        var test = NextTest.Plan(Falling, new(5, 12), 28, 2, 14);
        Assert.Equal(new NextTest(42, NextTestReason.Ceiling, OutOfLimits.ProbabilityAt(Falling, new(5, 12), 42)), test);
        Assert.Equal(42, NextTest.Plan(Falling, new(5, 12), 28, 14, 14).Day);
    }

    [Fact]
    public void Plan_NoTrendYet_IsTheCeiling() =>
        Assert.Equal(new NextTest(42, NextTestReason.Ceiling, null), NextTest.Plan(null, new(8.5, 9.5), 28, 2, 14));

    [Property]
    public void Plan_AnyTrend_IsWithinFloorAndCeiling(Wish wish)
    {
        var test = NextTest.Plan(wish.Line, wish.Limits, wish.Last, wish.Floor, wish.Ceiling, wish.Risk);
        Assert.InRange(test.Day, wish.Last + wish.Floor, wish.Last + wish.Ceiling);
        Assert.True(test.Risk is null or (>= 0 and <= 1));
        Assert.Equal(test.Reason is NextTestReason.Ceiling, !(test.Risk >= wish.Risk));
    }

    [Property]
    public void Plan_MoreRiskAccepted_IsNeverEarlier(Wish wish)
    {
        var strict = NextTest.Plan(wish.Line, wish.Limits, wish.Last, wish.Floor, wish.Ceiling, wish.Risk);
        var lenient = NextTest.Plan(wish.Line, wish.Limits, wish.Last, wish.Floor, wish.Ceiling, Math.Min(0.5, wish.Risk * 1.5));
        Assert.True(lenient.Day >= strict.Day - (1.0 / 1440));
    }

    [Property]
    public void Of_WiderLimits_AreNeverMetEarlier(Wish wish)
    {
        if (wish.Line is { } line)
        {
            var narrow = LimitForecast.Of(line, wish.Limits, wish.Last, wish.Last + 100);
            var wide = LimitForecast.Of(line, new(wish.Limits.Low - 0.5, wish.Limits.High + 0.5), wish.Last, wish.Last + 100);
            Assert.True((wide.Earliest ?? double.PositiveInfinity) >= (narrow.Earliest ?? double.PositiveInfinity));
            Assert.True(wide.Expected is null || wide.Expected >= wide.Earliest);
            Assert.True(wide.Latest is null || wide.Latest >= wide.Expected);
        }
    }

    [Fact]
    public void AnyInput_OutOfRange_IsRefusedByName()
    {
        var limits = new LimitBand(7, 9);
        Assert.Throws<ArgumentOutOfRangeException>("lastTestDay", () => NextTest.Plan(null, limits, double.NaN, 1, 2));
        Assert.Throws<ArgumentOutOfRangeException>("floorDays", () => NextTest.Plan(null, limits, 0, 2.1, 2));
        Assert.Throws<ArgumentOutOfRangeException>("floorDays", () => NextTest.Plan(null, limits, 0, -0.1, 2));
        Assert.Throws<ArgumentOutOfRangeException>("ceilingDays", () => NextTest.Plan(null, limits, 0, 0, 0));
        Assert.Throws<ArgumentOutOfRangeException>("acceptedRisk", () => NextTest.Plan(null, limits, 0, 1, 2, 0.51));
        Assert.Throws<ArgumentNullException>("limits", () => NextTest.Plan(null, null!, 0, 1, 2));
    }
}
