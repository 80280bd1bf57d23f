using ShopFluids.Calculations.Balances;
using Xunit;

namespace ShopFluids.Calculations.Tests.Balances;

public sealed class BalanceTests
{
    // The worked example of docs/calculations/balance.md.
    [Fact]
    public void Over_AWeekWithATopUp_MatchesTheWorkedExample()
    {
        var balance = Balance.Over(
            [Some.Reading(0, 400, 6, 8, 0.3, 1000), Some.Reading(7, 380, 6.6, 8, 0.3, 1040)], [Some.Addition(0, 80, 3)]);
        Assert.Equal(7, balance.Days);
        Assert.Equal(40, balance.RunningHours);
        Assert.Equal(100, balance.VolumeLostLitres.Value, 9);
        Assert.Equal(11.313708, balance.VolumeLostLitres.ExpandedUncertainty, 6);
        Assert.Equal(1.32, balance.ConcentrateLostLitres.Value, 9);
        Assert.Equal(1.802438, balance.ConcentrateLostLitres.ExpandedUncertainty, 6);
        Assert.Equal(6.007364, balance.MeanConcentrationPercent, 6);
        Assert.Equal(21.973031, balance.CarryOffLitres.Value, 5);
        Assert.Equal(29.9956, balance.CarryOffLitres.ExpandedUncertainty, 4);
        Assert.Equal(78.026969, balance.EvaporationLitres.Value, 5);
        Assert.Equal(27.5548, balance.EvaporationLitres.ExpandedUncertainty, 4);
        Assert.Equal(BalanceFault.None, balance.Finding.Fault);
        Assert.Empty(balance.Finding.LikelyCauses);
    }

    [Theory]
    [InlineData(100)]
    [InlineData(-100)]
    public void Over_OtherStartOfTheDays_ChangesNothing(double shift)
    {
        ChargeBalance From(double start) => Balance.Over(
            [Some.Reading(start, 400, 6, 8, 0.3), Some.Reading(start + 3, 390, 6.2, 8, 0.3), Some.Reading(start + 7, 380, 6.6, 8, 0.3)],
            [Some.Addition(start + 1, 80, 3)]);
        Assert.Equal(From(0) with { Finding = From(shift).Finding }, From(shift));
        Assert.Equal(7, From(shift).Days);
    }

    [Fact]
    public void PerDayAndPerRunningHour_Losses_AreTheTotalsOverTheTime()
    {
        var balance = Balance.Over([Some.Reading(0, 400, 6, 8, hours: 10), Some.Reading(10, 300, 6, hours: 60)], []);
        Assert.Equal(10, balance.PerDay.VolumeLost.Value, 9);
        Assert.Equal(0.8, balance.PerDay.VolumeLost.ExpandedUncertainty, 9);
        Assert.Equal(10, balance.PerDay.CarryOff.Value, 9);
        Assert.Equal(0, balance.PerDay.Evaporation.Value, 9);
        Assert.Equal(2, balance.PerRunningHour?.CarryOff.Value ?? 0, 9);
        Assert.Equal(32, balance.PerRunningHour?.PerDayAt(16).CarryOff.Value ?? 0, 9);
        Assert.Equal(2.56, balance.PerRunningHour?.PerDayAt(16).VolumeLost.ExpandedUncertainty ?? 0, 9);
    }

    [Theory]
    [InlineData(null, 5.0)]
    [InlineData(5.0, null)]
    [InlineData(5.0, 5.0)]
    [InlineData(5.0, 5.005)]
    public void RunningHours_NotKnownOrNotRun_AreNull(double? before, double? after)
    {
        var balance = Balance.Over([Some.Reading(0, hours: before), Some.Reading(1, 390, hours: after)], []);
        Assert.Null(balance.RunningHours);
        Assert.Null(balance.PerRunningHour);
    }

    [Fact]
    public void Over_OnlyEvaporation_LosesNoConcentrate()
    {
        var balance = Balance.Over([Some.Reading(0, 400, 6), Some.Reading(5, 300, 8)], []);
        Assert.Equal(0, balance.CarryOffLitres.Value, 9);
        Assert.Equal(100, balance.EvaporationLitres.Value, 9);
        Assert.Equal((6 + (4 * 2400 / 350.0) + 8) / 6, balance.MeanConcentrationPercent, 9);
    }

    [Fact]
    public void Over_RemovalAndAdditionInTheMiddle_AveragesTheConcentrationBeforeAndAfter()
    {
        // Nothing else is lost: 6 % for 3 days, then 100 L out and 100 L of 2 % in, 5 % for 7 days.
        var balance = Balance.Over([Some.Reading(0, 400, 6), Some.Reading(10, 400, 5)], [Some.Removal(3, 100, 6), Some.Addition(3, 100, 2)]);
        Assert.Equal(5.3, balance.MeanConcentrationPercent, 9);
        Assert.Equal(0, balance.CarryOffLitres.Value, 9);
        Assert.Equal(0, balance.EvaporationLitres.Value, 9);
        Assert.False(Some.Removal(3, 100, 6).IsAddition);
        Assert.True(Some.Addition(3, 100, 6).IsAddition);
    }

    [Fact]
    public void Over_SumpEmptiedInBetween_AveragesTheReadings()
    {
        var balance = Balance.Over([Some.Reading(0, 400, 4), Some.Reading(10, 400, 8)], [Some.Removal(3, 400, 4), Some.Addition(4, 400, 8)]);
        Assert.Equal(6, balance.MeanConcentrationPercent, 9);
    }

    [Fact]
    public void Over_SumpEmptiedAndRefilledAtOnce_AveragesBeforeAndAfter()
    {
        var balance = Balance.Over([Some.Reading(0, 400, 4), Some.Reading(10, 400, 8)], [Some.Removal(3, 400, 4), Some.Addition(3, 400, 8)]);
        Assert.Equal(6.8, balance.MeanConcentrationPercent, 9);
    }

    [Fact]
    public void Over_LossesAndATopUpInTheMiddle_AveragesEachStretchOfThePath()
    {
        // 100 L and 4 L of concentrate go in 10 days, evenly; after 4 days 100 L of 2 % come in.
        var balance = Balance.Over([Some.Reading(0, 400, 6), Some.Reading(10, 400, 5.5)], [Some.Addition(4, 100, 2)]);
        var before = (6 + (4 * 2320 / 380.0) + (2240 / 360.0)) / 6;
        var after = ((2440 / 460.0) + (4 * 2320 / 430.0) + 5.5) / 6;
        Assert.Equal((0.4 * before) + (0.6 * after), balance.MeanConcentrationPercent, 9);
    }

    [Fact]
    public void Over_ThreeReadings_WeighsTheMeanByTime()
    {
        var balance = Balance.Over([Some.Reading(0), Some.Reading(1), Some.Reading(4, 400, 3)], []);
        Assert.Equal(((1 * 6) + (3 * 4.5)) / 4, balance.MeanConcentrationPercent, 9);
    }

    [Fact]
    public void Over_UncertainReadingInTheMiddle_ActsThroughTheMeanOnly()
    {
        var balance = Balance.Over([Some.Reading(0, 400, 6), Some.Reading(2, 390, 6, 50, 0.6), Some.Reading(8, 384, 6)], []);

        // D = 16 L; the reading stands for half of 8 days: s = −D × 4/8 / 6 = −4/3 L per %.
        Assert.Equal(16, balance.CarryOffLitres.Value, 9);
        Assert.Equal(0.8, balance.CarryOffLitres.ExpandedUncertainty, 9);
        Assert.Equal(0.8, balance.EvaporationLitres.ExpandedUncertainty, 9);
        Assert.Equal(0, balance.VolumeLostLitres.ExpandedUncertainty, 9);
        Assert.Equal(0, balance.ConcentrateLostLitres.ExpandedUncertainty, 9);
    }

    [Fact]
    public void Over_UncertainMovements_AddToEachLossByItsSensitivity()
    {
        var balance = Balance.Over([Some.Reading(0), Some.Reading(8)], [Some.Addition(0, 100, 6, 3, 0.6), Some.Removal(0, 100, 6, 4, 0)]);
        Assert.Equal(5, balance.VolumeLostLitres.ExpandedUncertainty, 9);
        Assert.Equal(Math.Sqrt((18 * 18) + (60 * 60) + (24 * 24)) / 100, balance.ConcentrateLostLitres.ExpandedUncertainty, 9);
        Assert.Equal(Math.Sqrt(9 + 100 + 16), balance.CarryOffLitres.ExpandedUncertainty, 9);
        Assert.Equal(10, balance.EvaporationLitres.ExpandedUncertainty, 9);
    }

    [Fact]
    public void Finding_MoreWaterThanRecorded_IsEvaporationNegative()
    {
        // 100 L of water came in: volume up, concentrate as before.
        var finding = Balance.Over([Some.Reading(0, 300, 8, 4, 0.1), Some.Reading(7, 400, 6, 4, 0.1)], []).Finding;
        Assert.Equal(BalanceFault.EvaporationNegative, finding.Fault);
        Assert.Equal(
            [BalanceCause.UnrecordedWater, BalanceCause.ForeignWater, BalanceCause.SplittingEmulsion, BalanceCause.OilSkimmedWithFluid],
            finding.LikelyCauses);
    }

    [Fact]
    public void Finding_MoreConcentrateThanRecorded_IsCarryOffNegative()
    {
        var finding = Balance.Over([Some.Reading(0, 400, 5, 4, 0.1), Some.Reading(7, 400, 7, 4, 0.1)], []).Finding;
        Assert.Equal(BalanceFault.CarryOffNegative, finding.Fault);
        Assert.Equal([BalanceCause.UnrecordedConcentrate, BalanceCause.ContaminationReadAsCoolant], finding.LikelyCauses);
    }

    [Fact]
    public void Finding_MoreMixThanRecorded_IsBothNegative()
    {
        // 100 L of 6 % and 20 L of water came in.
        var finding = Balance.Over([Some.Reading(0, 300, 6), Some.Reading(7, 420, 2400.0 / 420)], []).Finding;
        Assert.Equal(BalanceFault.BothNegative, finding.Fault);
        Assert.Equal([BalanceCause.UnrecordedConcentrate, BalanceCause.UnrecordedWater], finding.LikelyCauses);
    }

    [Theory]
    [InlineData(10.000002, BalanceFault.None)]
    [InlineData(9.999, BalanceFault.EvaporationNegative)]
    public void Finding_EvaporationAtItsUncertainty_IsToldOnlyBeyond(double uncertainty, BalanceFault expected)
    {
        // 10 L more than recorded, at the same strength as water would need: E = −10 L, and D = 0.
        var balance = Balance.Over([Some.Reading(0, 400, 6), Some.Reading(7, 410, 2400 / 410.0)], [Some.Addition(0, 0, 0, uncertainty)]);
        Assert.Equal(-10, balance.EvaporationLitres.Value, 9);
        Assert.Equal(expected, balance.Finding.Fault);
    }

    [Fact]
    public void Over_WaterOnly_SaysThatTheConcentrationIsTooLow()
    {
        var error = Assert.Throws<ArgumentOutOfRangeException>("readings", () => Balance.Over([Some.Reading(0, 400, 0.0099), Some.Reading(1, 400, 0.0099)], []));
        Assert.Contains("0.01 % v/v or more", error.Message, StringComparison.Ordinal);
        Assert.Equal(0.01, Balance.Over([Some.Reading(0, 400, 0.01), Some.Reading(1, 400, 0.01)], []).MeanConcentrationPercent, 12);
    }

    [Fact]
    public void Over_OutOfOrder_IsRefusedByName()
    {
        SumpReading[] readings = [Some.Reading(0, hours: 10), Some.Reading(1, hours: 20)];
        Assert.Throws<ArgumentOutOfRangeException>("readings", () => Balance.Over([readings[0]], []));
        Assert.Throws<ArgumentOutOfRangeException>("readings", () => Balance.Over([readings[0], Some.Reading(0)], []));
        Assert.Throws<ArgumentOutOfRangeException>("readings", () => Balance.Over([readings[0], Some.Reading(1, hours: 9)], []));
        Assert.Throws<ArgumentOutOfRangeException>("readings", () => Balance.Over([readings[0], Some.Reading(1), Some.Reading(2, hours: 9)], []));
        Assert.Throws<ArgumentOutOfRangeException>("movements", () => Balance.Over(readings, [Some.Addition(-0.1, 1, 1)]));
        Assert.Throws<ArgumentOutOfRangeException>("movements", () => Balance.Over(readings, [Some.Addition(1, 1, 1)]));
        Assert.Throws<ArgumentOutOfRangeException>("movements", () => Balance.Over(readings, [Some.Addition(0.5, 1, 1), Some.Addition(0.4, 1, 1)]));
        Assert.Throws<ArgumentException>("readings", () => Balance.Over([readings[0], null!], []));
        Assert.Throws<ArgumentException>("movements", () => Balance.Over(readings, [null!]));
    }

    [Fact]
    public void Over_ReadingsASecondApart_AreLateEnough() =>
        Assert.Equal(1e-5, Balance.Over([Some.Reading(0), Some.Reading(1e-5)], []).Days);

    [Fact]
    public void Over_MoreMovementsThanTheMost_AreRefused()
    {
        var error = Assert.Throws<ArgumentOutOfRangeException>(
            "movements", () => Balance.Over([Some.Reading(0), Some.Reading(1)], [.. Enumerable.Repeat(Some.Addition(0, 0, 0), 100_001)]));
        Assert.Contains("0 to 100000 movements.", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Inputs_OutOfRange_AreRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("Day", () => Some.Reading(1_000_001));
        Assert.Throws<ArgumentOutOfRangeException>("VolumeLitres", () => Some.Reading(0, 1_000_001));
        Assert.Throws<ArgumentOutOfRangeException>("VolumeLitres", () => Some.Reading(0, 1, 1, 1_000_001));
        Assert.Throws<ArgumentOutOfRangeException>("ConcentrationPercent", () => Some.Reading(0, 1, 100.1));
        Assert.Throws<ArgumentOutOfRangeException>("RunningHours", () => Some.Reading(0, hours: -1));
        Assert.Throws<ArgumentOutOfRangeException>("litres", () => Some.Addition(0, -1, 1));
        Assert.Throws<ArgumentOutOfRangeException>("concentrationPercent", () => Some.Removal(0, 1, 101));
        Assert.Throws<ArgumentOutOfRangeException>("day", () => Some.Removal(double.NaN, 1, 1));
        Assert.Throws<ArgumentOutOfRangeException>("hoursPerDay", () => Some.Rates(1, 1).PerDayAt(24.1));
    }
}
