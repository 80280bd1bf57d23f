using ShopFluids.Rules.Facts;
using ShopFluids.Rules.MassBalance;

namespace ShopFluids.Rules.Tests.MassBalance;

/// <summary>The losses of a charge over all its full readings. The sump holds 1 L for each mm.</summary>
public sealed class ChargeLossesTests
{
    // 250 L at 8 % hold 20 L of concentrate. Ten days later 240 L at 8 %: 10 L of mix went, and no water.
    [Fact]
    public void Over_MixCarriedOff_IsToldFromWater()
    {
        var losses = Over([Full(0, 250, 8), Full(10, 240, 8)]);

        Assert.Equal(LossesGap.None, losses.Gap);
        Assert.Equal(10, losses.Balance!.CarryOffLitres.Value, 6);
        Assert.Equal(0, losses.Balance.EvaporationLitres.Value, 6);
        Assert.Equal(1, losses.Balance.PerDay.VolumeLost.Value, 6);
    }

    // The 20 L of concentrate are still there: 200 L at 10 %.
    [Fact]
    public void Over_WaterEvaporated_IsToldFromMix()
    {
        var losses = Over([Full(0, 250, 8), Full(10, 200, 10)]);

        Assert.Equal(50, losses.Balance!.EvaporationLitres.Value, 6);
        Assert.Equal(0, losses.Balance.CarryOffLitres.Value, 6);
    }

    [Fact]
    public void Over_TopUpsBetween_AreCounted()
    {
        var losses = Over([Full(0, 250, 8), Full(5, 225, 8.9m), Full(10, 250, 8)], new MovementFacts(Some.Now.AddDays(6), 46, 4, 0), new MovementFacts(Some.Now.AddDays(7), 0, 0, 10));

        Assert.Equal((3, 50.0, 10.0), (losses.Readings, losses.PutInLitres, losses.TakenOutLitres));
        Assert.Equal(40, losses.Balance!.VolumeLostLitres.Value, 6);
        Assert.Equal(Some.Now, losses.From);
        Assert.Equal(Some.Now.AddDays(10), losses.To);
    }

    // At the moment of a reading it was done after it: at the first one it belongs to the charge's losses, at the last one no more.
    [Theory]
    [InlineData(-0.01, 0)]
    [InlineData(0, 20)]
    [InlineData(9.99, 20)]
    [InlineData(10, 0)]
    public void Over_MovementAtTheEnds_CountsFromTheFirstReadingToBeforeTheLast(double day, int putIn) =>
        Assert.Equal(putIn, Over([Full(0, 250, 8), Full(10, 240, 8)], new MovementFacts(Some.Now.AddDays(day), 20, 0, 0)).PutInLitres);

    // 20 L of concentrate at first. 50 L were taken out at the 4 % read the day before, and not at the 8 % of the first reading or the 5 % of the last: 2 L; 10 L are left.
    [Fact]
    public void Over_MixTakenOut_HadTheStrengthReadBeforeIt() =>
        Assert.Equal(8, Over([Full(0, 250, 8), Full(5, 250, 4), Full(10, 200, 5)], new MovementFacts(Some.Now.AddDays(6), 0, 0, 50)).Balance!.ConcentrateLostLitres.Value, 6);

    // What is taken out at the moment of a reading has that reading's strength: of 20 L 3 L were taken out, and 10 L are left.
    [Fact]
    public void Over_MixTakenOutAtAReading_HadItsStrength() =>
        Assert.Equal(7, Over([Full(0, 250, 8), Full(5, 250, 6), Full(10, 200, 5)], new MovementFacts(Some.Now.AddDays(5), 0, 0, 50)).Balance!.ConcentrateLostLitres.Value, 6);

    [Fact]
    public void Over_RunningHours_GiveLossesPerHour()
    {
        var losses = ChargeLosses.Over(new([Full(0, 250, 8), Full(10, 240, 8)], []), Some.Sump(), 10, hoursPerDay: 8);

        Assert.Equal(80, losses.Balance!.RunningHours);
        Assert.Equal(0.125, losses.Balance.PerRunningHour!.VolumeLost.Value, 6);
        Assert.Null(Over([Full(0, 250, 8), Full(10, 240, 8)]).Balance!.PerRunningHour);
    }

    [Theory]
    [InlineData(1.99, LossesGap.TooShort)]
    [InlineData(2, LossesGap.None)]
    public void Over_LessThanTwoDays_SaysNothing(double days, LossesGap gap) =>
        Assert.Equal(gap, Over([Full(0, 250, 8), Full(days, 240, 8)]).Gap);

    [Fact]
    public void Over_OneFullReading_SaysSo()
    {
        var losses = Over([Full(0, 250, 8), new ReadingFacts(Some.Id(9), Some.Now.AddDays(9), [Some.Measured(ParameterCodes.Level, 240)])]);

        Assert.Equal((LossesGap.TooFewReadings, 1, null), (losses.Gap, losses.Readings, losses.Balance));
        Assert.Null(Over([]).From);
    }

    [Fact]
    public void Over_NoConcentrate_SaysSo() => Assert.Equal(LossesGap.NoConcentrate, Over([Full(0, 250, 0), Full(10, 240, 0)]).Gap);

    [Fact]
    public void Over_TwoReadingsOfOneMoment_TheLaterCounts()
    {
        var losses = Over([Full(0, 260, 8), Full(0, 250, 8), Full(10, 240, 8), Full(10, 230, 8)]);

        Assert.Equal(2, losses.Readings);
        Assert.Equal(20, losses.Balance!.VolumeLostLitres.Value, 6);
    }

    private static ChargeLosses Over(IReadOnlyList<ReadingFacts> readings, params MovementFacts[] movements) =>
        ChargeLosses.Over(new(readings, movements), Some.Sump(), 10, hoursPerDay: null);

    private static ReadingFacts Full(double day, decimal levelMm, decimal percent) => new(
        Some.Id(1),
        Some.Now.AddDays(day),
        [Some.Measured(ParameterCodes.Level, levelMm), Some.Measured(ParameterCodes.Concentration, percent, MethodCodes.Refractometer)]);
}
