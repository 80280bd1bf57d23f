using ShopFluids.Calculations.Balances;
using ShopFluids.Calculations.Uncertainties;
using Xunit;

namespace ShopFluids.Calculations.Tests.Balances;

public sealed class OutlookTests
{
    // The worked example of docs/calculations/balance.md: 16 L a day, of which 12 L evaporate.
    [Fact]
    public void At_TenDays_MatchesTheWorkedExample()
    {
        var then = Outlook.At(Some.Reading(0, 400, 6, 8, 0.3), Some.Rates(16, 12, 1, 1), 10);
        Assert.Equal(240, then.VolumeLitres.Value, 9);
        Assert.Equal(Math.Sqrt(64 + 100), then.VolumeLitres.ExpandedUncertainty, 9);
        Assert.Equal(6 * Math.Pow(400 / 240.0, 0.75), then.ConcentrationPercent.Value, 9);
        Assert.Equal(0.533370, then.ConcentrationPercent.ExpandedUncertainty, 5);
    }

    [Theory]
    [InlineData(16, 12)]
    [InlineData(-8, -12)]
    [InlineData(0.0001, 5)]
    [InlineData(-0.02, 0.05)]
    public void At_Uncertainty_IsThatOfShiftedInputs(double lost, double evaporation)
    {
        // JCGM 100, 5.1.3 note 2: sensitivities by shifting each input.
        double Percent(double v = 0, double c = 0, double l = 0, double e = 0) =>
            Outlook.At(Some.Reading(0, 400 + v, 6 + c), Some.Rates(lost + l, evaporation + e), 10).ConcentrationPercent.Value;
        const double Step = 1e-4;
        var expected = Math.Sqrt(
            Math.Pow((Percent(v: Step) - Percent(v: -Step)) * 4 / Step, 2) + Math.Pow((Percent(c: Step) - Percent(c: -Step)) * 0.15 / Step, 2)
            + Math.Pow((Percent(l: Step) - Percent(l: -Step)) * 0.5 / Step, 2) + Math.Pow((Percent(e: Step) - Percent(e: -Step)) * 0.4 / Step, 2));
        var then = Outlook.At(Some.Reading(0, 400, 6, 8, 0.3), Some.Rates(lost, evaporation, 1, 0.8), 10);
        Assert.Equal(expected, then.ConcentrationPercent.ExpandedUncertainty, 6);
    }

    // ∂/∂l of −ln(1 − x)/l is t²/V₀² (1/2 + 2x/3 + 3x²/4 + 4x³/5 + ...), x = l t/V₀: the series of the logarithm, differentiated.
    [Theory]
    [InlineData(0)]
    [InlineData(0.00008)]
    [InlineData(-0.00008)]
    [InlineData(0.001)]
    public void At_UncertaintyOfASmallLoss_FollowsTheSeries(double share)
    {
        var series = 0.5 + (2 * share / 3) + (3 * Math.Pow(share, 2) / 4) + (4 * Math.Pow(share, 3) / 5) + (5 * Math.Pow(share, 4) / 6);
        var then = Outlook.At(Some.Reading(0, 400, 6), Some.Rates(40 * share, 12, 1), 10);
        var expected = then.ConcentrationPercent.Value * 12 * 100 / 160_000 * series;
        Assert.Equal(1, then.ConcentrationPercent.ExpandedUncertainty / expected, tolerance: 2e-10);
    }

    [Fact]
    public void At_LevelHeldByWaterRunningIn_GrowsExponentially() =>
        Assert.Equal(6 * Math.Exp(0.25), Outlook.At(Some.Reading(0), Some.Rates(0, 10), 10).ConcentrationPercent.Value, 9);

    [Fact]
    public void At_NoLoss_StaysAsItIs()
    {
        var then = Outlook.At(Some.Reading(0, 400, 6, 8, 0.3), Some.Rates(0, 0), 3650);
        Assert.Equal(new(400, 8), then.VolumeLitres);
        Assert.Equal(new(6, 0.3), then.ConcentrationPercent);
    }

    [Theory]
    [InlineData(16, 12, 25)]
    [InlineData(16, -1, 25)]
    [InlineData(16, 16, 24)]
    [InlineData(-1e6, 0, 1)]
    public void At_EmptyOrAllConcentrateOrRunOver_IsRefused(double lost, double evaporation, double days)
    {
        var error = Assert.Throws<ArgumentOutOfRangeException>(nameof(days), () => Outlook.At(Some.Reading(0), Some.Rates(lost, evaporation), days));
        Assert.Contains("before the sump is empty", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void At_ConcentrateOnlyOrTheLargestSump_IsAccepted()
    {
        Assert.Equal(new(100, 0), Outlook.At(Some.Reading(0, 400, 100), Some.Rates(1, 0), 10).ConcentrationPercent);
        Assert.Equal(new(1_000_000, 0), Outlook.At(Some.Reading(0, 1_000_000), Some.Rates(0, 0), 10).VolumeLitres);
    }

    [Fact]
    public void NextTopUp_DueOnTheLastDayLookedAt_IsTold()
    {
        var due = Outlook.NextTopUp(Some.Reading(0, 400), Some.Rates(16, 0), 240, 4, 9, 10);
        Assert.Equal((TopUpReason.LevelLow, 10.0), (due.Reason, due.Days?.Value));
    }

    [Fact]
    public void NextTopUp_StrengthOnTheLimitAndHeld_IsNotDue() =>
        Assert.Equal(TopUpReason.NoneInSight, Outlook.NextTopUp(Some.Reading(0, 400, 9), Some.Rates(0, 0), 240, 4, 9).Reason);

    [Fact]
    public void NextTopUp_LevelFallsFirst_TellsTheDayWithUncertainty()
    {
        // Worked example of the page: (400 − 240)/16 = 10 days, U = √(8² + 10²)/16.
        var due = Outlook.NextTopUp(Some.Reading(0, 400, 6, 8, 0.3), Some.Rates(16, 12, 1, 1), 240, 4, 9);
        Assert.Equal(TopUpReason.LevelLow, due.Reason);
        Assert.Equal(10, due.Days?.Value ?? 0, 9);
        Assert.Equal(Math.Sqrt(164) / 16, due.Days?.ExpandedUncertainty ?? 0, 9);
    }

    [Fact]
    public void NextTopUp_StrengthRisesFirst_TellsTheDayAtWhichItIsReached()
    {
        var (now, rates) = (Some.Reading(0, 400, 6, 8, 0.3), Some.Rates(16, 12, 1, 1));
        var due = Outlook.NextTopUp(now, rates, 240, 4, 8);
        Assert.Equal(TopUpReason.ConcentrationHigh, due.Reason);
        var days = due.Days?.Value ?? 0;
        Assert.Equal(25 * (1 - Math.Pow(0.75, 4.0 / 3)), days, 9);
        var then = Outlook.At(now, rates, days);
        Assert.Equal(8, then.ConcentrationPercent.Value, 9);
        Assert.Equal(then.ConcentrationPercent.ExpandedUncertainty / (8 * 12 / then.VolumeLitres.Value), due.Days?.ExpandedUncertainty ?? 0, 9);
    }

    [Fact]
    public void NextTopUp_WaterRunsIn_TellsWhenItIsTooWeak()
    {
        var due = Outlook.NextTopUp(Some.Reading(0, 400, 6), Some.Rates(0, -10), 240, 5, 9);
        Assert.Equal(TopUpReason.ConcentrationLow, due.Reason);
        Assert.Equal(40 * Math.Log(1.2), due.Days?.Value ?? 0, 9);
    }

    [Theory]
    [InlineData(240, 6, TopUpReason.LevelLow)]
    [InlineData(241, 3.9, TopUpReason.ConcentrationLow)]
    [InlineData(241, 9.1, TopUpReason.ConcentrationHigh)]
    public void NextTopUp_DueAlready_IsToday(double litres, double percent, TopUpReason reason)
    {
        var due = Outlook.NextTopUp(Some.Reading(0, litres, percent, 8, 0.3), Some.Rates(0, 0), 240, 4, 9);
        Assert.Equal((Estimate.Exact(0), reason), (due.Days, due.Reason));
    }

    [Theory]
    [InlineData(0, 0, 365)]
    [InlineData(16, 0, 9.9)]
    [InlineData(-16, 0, 365)]
    [InlineData(1, -1e-300, 10)]
    public void NextTopUp_NothingInSight_SaysSo(double lost, double evaporation, double horizon) =>
        Assert.Equal(new TopUpDue(null, TopUpReason.NoneInSight), Outlook.NextTopUp(Some.Reading(0), Some.Rates(lost, evaporation), 240, 4, 9, horizon));

    [Fact]
    public void NextTopUp_WaterOnly_LooksAtTheLevelAlone()
    {
        var due = Outlook.NextTopUp(Some.Reading(0, 400, 0), Some.Rates(16, 12), 240, 0, 9);
        Assert.Equal((TopUpReason.LevelLow, 10.0), (due.Reason, due.Days?.Value));
        due = Outlook.NextTopUp(Some.Reading(0, 400, 5), Some.Rates(16, -12), 240, 0, 9);
        Assert.Equal((TopUpReason.LevelLow, 10.0), (due.Reason, due.Days?.Value));
    }

    [Fact]
    public void NextTopUp_UncertaintyBeyondTheHorizon_IsTheHorizon() =>
        Assert.Equal(20, Outlook.NextTopUp(Some.Reading(0, 400, 6, 400), Some.Rates(16, 12), 240, 4, 9, 20).Days?.ExpandedUncertainty);

    [Fact]
    public void AnyInput_OutOfRange_IsRefusedByName()
    {
        var (now, rates) = (Some.Reading(0), Some.Rates(16, 12));
        Assert.Throws<ArgumentOutOfRangeException>("now", () => Outlook.At(Some.Reading(0, 0.09), rates, 1));
        Assert.Throws<ArgumentOutOfRangeException>("days", () => Outlook.At(now, rates, -1));
        Assert.Throws<ArgumentOutOfRangeException>("refillLitres", () => Outlook.NextTopUp(now, rates, 0, 4, 9));
        Assert.Throws<ArgumentOutOfRangeException>("lowPercent", () => Outlook.NextTopUp(now, rates, 240, -1, 9));
        Assert.Throws<ArgumentOutOfRangeException>("highPercent", () => Outlook.NextTopUp(now, rates, 240, 4, 3.9));
        Assert.Throws<ArgumentOutOfRangeException>("horizonDays", () => Outlook.NextTopUp(now, rates, 240, 4, 9, 3651));
        Assert.Throws<ArgumentOutOfRangeException>("VolumeLost", () => Some.Rates(2e21, 0));
        Assert.Throws<ArgumentNullException>("now", () => Outlook.At(null!, rates, 1));
        Assert.Throws<ArgumentNullException>("perDay", () => Outlook.At(now, null!, 1));
    }
}
