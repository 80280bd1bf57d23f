using ShopFluids.Calculations.Upkeep;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Shutdowns;

namespace ShopFluids.Rules.Tests.Shutdowns;

/// <summary>
/// What is known of a sump before it stands for ten days. It holds 1 L for each mm, 300 L at the full mark, 400 L at the brim; now 250 L at 6 %. In four
/// days 310 L at 6 % have become 250 L at 7.44 %: 60 L of water, 15 L a day.
/// </summary>
public sealed class ShutdownAdviceTests
{
    private static readonly ReadingFacts First = At(-4, 310, 6.0m);
    private static readonly ReadingFacts Last = At(0, 250, 7.44m);

    [Fact]
    public void For_WaterLostSoFar_GoesOnBeingLost()
    {
        var plan = Plan([First, Last]);

        Assert.Equal((100.0, 15.0), (Math.Round(plan.ExpectedLitres, 9), Math.Round(plan.ExpectedPercent, 9)));
    }

    // 20 L of water were put in as well, so 80 L are gone: 20 L a day. At the moment of the last reading it was done after it.
    [Theory]
    [InlineData(-4.0, 50)]
    [InlineData(-2.0, 50)]
    [InlineData(-0.001, 50)]
    [InlineData(0.0, 100)]
    [InlineData(-4.001, 100)]
    public void For_WaterPutIn_WasLostAsWell(double day, int expected) =>
        Assert.Equal(expected, Math.Round(Plan([First, Last], new MovementFacts(Some.Now.AddDays(day), 20, 0, 0)).ExpectedLitres, 9));

    // 310 L at 6 % and 10 L each of water and concentrate are 28.6 L of product; in 250 L they are 11.44 %. 80 L of water are gone.
    [Fact]
    public void For_ConcentrateWithIt_IsNoWaterLost() =>
        Assert.Equal(50, Math.Round(Plan([First, At(0, 250, 11.44m)], new MovementFacts(Some.Now.AddDays(-3), 10, 10, 0)).ExpectedLitres, 9));

    // 31 L of mix were taken out, of the strength last read: 16.74 L of product are left, 6.696 % of 250 L. 29 L of water are gone, 7.25 L a day.
    [Fact]
    public void For_MixTakenOut_WentWithItsConcentrate() =>
        Assert.Equal(177.5, Math.Round(Plan([First, At(0, 250, 6.696m)], new MovementFacts(Some.Now.AddDays(-4), 0, 0, 31)).ExpectedLitres, 6));

    // Readings that tell no volume or no share of a mix are none.
    [Theory]
    [InlineData(401, 6.0)]
    [InlineData(-1, 6.0)]
    [InlineData(280, 100.1)]
    [InlineData(280, -0.1)]
    public void For_ReadingOutsideWhatThereCanBe_IsLeftOut(int level, double percent) =>
        Assert.Equal(100, Math.Round(Plan([At(-9, level, (decimal)percent), First, Last]).ExpectedLitres, 9));

    // From the brim, 400 L at 4.65 %, 150 L of water went in the same time: 37.5 L a day.
    [Fact]
    public void For_ReadingAtTheBrim_Counts() => Assert.Equal(18.6, Math.Round(Plan([At(-4, 400, 4.65m), Last], percent: 7.44m).ExpectedLitres, 6));

    // Of two readings at one moment the later one counts, also of the first two; the 50 L at 6 % are a slip.
    [Fact]
    public void For_TwoReadingsOfOneMoment_TheLaterCounts()
    {
        Assert.Equal(100, Math.Round(Plan([At(-4, 50, 6.0m), First, Last]).ExpectedLitres, 9));
        Assert.Equal(100, Math.Round(Plan([First, At(0, 50, 6.0m), Last]).ExpectedLitres, 9));
    }

    // Readings of less than a day tell no rate, one reading none, and a gain is no loss.
    [Theory]
    [InlineData(-0.99, 310, 250)]
    [InlineData(-4.0, 200, 250)]
    [InlineData(-1.0, 265, 100)]
    public void For_TooShortOrAGain_LosesNothing(double day, int level, int expected) =>
        Assert.Equal(expected, Math.Round(Plan([At(day, level, decimal.Round(1860m / level, 6)), Last]).ExpectedLitres, 3));

    [Fact]
    public void For_OneReading_LosesNothing() => Assert.Equal(250, Plan([Last]).ExpectedLitres);

    // The content is not known, or more than there can be.
    [Theory]
    [InlineData(null, 300, true)]
    [InlineData(0.0, 400, true)]
    [InlineData(500.0, 400, false)]
    [InlineData(250.0, 250, false)]
    public void For_Content_IsTakenAtTheFullMarkOrTheBrim(double? volume, int expected, bool testsBefore)
    {
        var plan = Plan([], volume: volume);

        Assert.Equal((expected, testsBefore), (plan.ExpectedLitres, plan.TestBefore));
    }

    // Nobody ever read a concentration: the fluid's own is taken, and the sump is tested before.
    [Fact]
    public void For_ConcentrationNotKnown_TakesTheTargetAndTests()
    {
        var plan = Plan([], percent: null);

        Assert.Equal((6.0, true, false), (plan.ExpectedPercent, plan.TestBefore, plan.AdjustBefore));
    }

    // The warning limits decide, the action limits where there are no others; without any nothing is outside.
    [Theory]
    [InlineData(5.0, 4.0, 8.0, 9.0, 4.9, true)]
    [InlineData(5.0, 4.0, 8.0, 9.0, 5.0, false)]
    [InlineData(null, 4.0, null, 9.0, 3.9, true)]
    [InlineData(null, 4.0, null, 9.0, 4.0, false)]
    [InlineData(5.0, 4.0, 8.0, 9.0, 8.1, true)]
    [InlineData(5.0, 4.0, 8.0, 9.0, 8.0, false)]
    [InlineData(null, 4.0, null, 9.0, 9.1, true)]
    [InlineData(null, 4.0, null, 9.0, 9.0, false)]
    [InlineData(null, null, null, null, 0.1, false)]
    [InlineData(null, null, null, null, 99.0, false)]
    public void For_Concentration_IsAdjustedOutsideItsLimits(double? warningLow, double? actionLow, double? warningHigh, double? actionHigh, double percent, bool isAdjusted)
    {
        ParameterLimits[] rows =
        [
            Some.Limits(ParameterCodes.Ph, 99, 99, 99, 99),
            Some.Limits(basis: LimitBasis.DropFromFirstFill, warningLow: 99),
            Some.Limits(actionLow: (decimal?)actionLow, warningLow: (decimal?)warningLow, warningHigh: (decimal?)warningHigh, actionHigh: (decimal?)actionHigh),
        ];

        Assert.Equal(isAdjusted, Plan([], percent: (decimal)percent, limits: rows).AdjustBefore);
    }

    [Fact]
    public void For_NoLimitsAtAll_AdjustsNothing() => Assert.False(Plan([], percent: 0.1m, limits: []).AdjustBefore);

    private static ShutdownPlan Plan(ReadingFacts[] readings, MovementFacts movement) => Plan(readings, [movement], 250, 6m, null);

    private static ShutdownPlan Plan(ReadingFacts[] readings, double? volume = 250, decimal? percent = 6, ParameterLimits[]? limits = null) => Plan(readings, [], volume, percent, limits);

    private static ShutdownPlan Plan(ReadingFacts[] readings, MovementFacts[] movements, double? volume, decimal? percent, ParameterLimits[]? limits) => ShutdownAdvice.For(
        10,
        Some.Sump(),
        Some.Fluid(),
        Some.Standing(latest: percent is { } known ? [(ParameterCodes.Concentration, Some.Latest(known, Some.Now))] : []),
        volume,
        new(readings, movements),
        limits ?? [Some.Limits()],
        new());

    private static ReadingFacts At(double day, decimal levelMm, decimal percent) =>
        new(Some.Id(800), Some.Now.AddDays(day), [Some.Measured(ParameterCodes.Level, levelMm), Some.Measured(ParameterCodes.Concentration, percent)]);
}
