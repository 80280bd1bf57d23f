using ShopFluids.Core.Rounds;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using Xunit;

namespace ShopFluids.Core.Tests.Rounds;

public sealed class GaugeLimitsTests
{
    private static readonly ParameterLimits OnValue = new(ParameterCodes.Ph, LimitBasis.Value, 8.4m, 8.7m, 8.9m, 9.4m, 9.6m, 9.8m, false, 0.1m);
    private static readonly ParameterLimits OnFall = new(ParameterCodes.Ph, LimitBasis.DropFromFirstFill, null, null, null, null, 0.5m, 1.0m, false, 0);

    [Fact]
    public void For_LimitsOnTheValue_TakesThemAsTheyAre() =>
        Assert.Equal(new GaugeLimits(8.4m, 8.7m, 8.9m, 9.4m, 9.6m, 9.8m), GaugeLimits.For(ParameterCodes.Ph, [OnFall, OnValue], 9.2m));

    [Fact]
    public void For_OnlyAFallFromTheFirstFill_ShowsWhereItIsReached() =>
        Assert.Equal(new GaugeLimits(8.2m, 8.7m, null, null, null, null), GaugeLimits.For(ParameterCodes.Ph, [OnFall], 9.2m));

    [Fact]
    public void For_FallBeforeTheFirstFillIsKnown_DrawsNothing() => Assert.Null(GaugeLimits.For(ParameterCodes.Ph, [OnFall], null));

    [Fact]
    public void For_RowWithoutAnyLimit_DrawsNothing() =>
        Assert.Null(GaugeLimits.For(ParameterCodes.Ph, [OnValue with { ActionLow = null, WarningLow = null, TargetLow = null, TargetHigh = null, WarningHigh = null, ActionHigh = null }], null));
}
