using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.MassBalance;
using ShopFluids.Rules.Tests.Course;

namespace ShopFluids.Rules.Tests.MassBalance;

/// <summary>Which two readings are compared, what belongs between them, and what is told. The sump holds 1 L for each mm; 250 L at 8 % hold 20 L of concentrate.</summary>
public sealed class BalancePairTests
{
    private readonly Charge _charge = new(new BalanceRule());

    // 250 L at 8.0 % become 280 L at 7.1 %: 30 L more, and 0.12 L of concentrate less, which at 7.55 % in the middle are 1.6 L of mix.
    [Fact]
    public void Check_WaterGained_TellsHowMuch()
    {
        Read(250, 8.0m);
        _charge.After(7);
        Read(280, 7.1m);

        Assert.Equal((31.6m, 0m), (_charge.Open?.Numbers[NumberNames.GainedLitres], _charge.Open?.Numbers[NumberNames.GainedConcentrate]));
    }

    // 250 L at 8.0 % become 250 L at 5.0 %: 7.5 L of concentrate, which at 6.5 % in the middle are 115.4 L of mix, and as much water in its place.
    [Fact]
    public void Check_WaterInThePlaceOfMix_TellsBoth()
    {
        Read(250, 8.0m);
        _charge.After(7);
        Read(250, 5.0m);

        Assert.Equal((Direction.High, 115.4m, 115.4m), (_charge.Open?.Direction, _charge.Open?.Numbers[NumberNames.GainedLitres], _charge.Open?.Numbers[NumberNames.LostMix]));
    }

    // 30 L more and 1.6 L of mix less: the mix that went is within its uncertainty.
    [Fact]
    public void Check_WaterGainedOnTop_TellsNoMix()
    {
        Read(250, 8.0m);
        _charge.After(7);
        Read(280, 7.1m);

        Assert.False(_charge.Open?.Numbers.ContainsKey(NumberNames.LostMix));
    }

    // On the same visit the level tells more of the reader than of the sump: the reading before it is taken.
    [Theory]
    [InlineData(4.0, 0.2)]
    [InlineData(3.99, 7.2)]
    public void Check_ReadingsOfOneVisit_AreNotCompared(double hours, double days)
    {
        Read(250, 8.0m);
        _charge.After(7);
        Read(250, 8.0m);
        _charge.After(hours / 24);
        Read(280, 7.1m);

        Assert.Equal((decimal)days, _charge.Open?.Numbers[NumberNames.Days]);
    }

    // A level without a concentration, or the other way round, is passed over.
    [Theory]
    [InlineData(ParameterCodes.Level, 250)]
    [InlineData(ParameterCodes.Concentration, 8)]
    public void Check_ReadingThatTellsOne_IsPassedOver(string parameter, int value)
    {
        Read(250, 8.0m);
        _charge.After(3).Reads(Some.Measured(parameter, value));
        _charge.After(4);
        Read(280, 7.1m);

        Assert.Equal(7m, _charge.Open?.Numbers[NumberNames.Days]);
    }

    [Theory]
    [InlineData(21.0, true)]
    [InlineData(21.001, false)]
    public void Check_LongestGap_IsThreeWeeks(double days, bool isCompared)
    {
        Read(250, 8.0m);

        Assert.Equal(isCompared, _charge.After(days).Reads(Some.Measured(ParameterCodes.Level, 280), Some.Measured(ParameterCodes.Concentration, 7.1m)).Count == 1);
    }

    // What is poured at the moment of the first reading came after it, at the moment of the second after that.
    [Theory]
    [InlineData(0.0, true)]
    [InlineData(6.999, true)]
    [InlineData(7.0, false)]
    public void Check_MovementAtTheMomentOfAReading_CameAfterIt(double day, bool isExplained)
    {
        // The one before the first reading belongs to no pair, and keeps that reading from being the oldest.
        Read(250, 8.0m);
        _charge.After(1);
        Read(250, 8.0m);
        _charge.After(day).Moves(water: 30);
        _charge.After(7 - day);
        Read(280, 7.1m);

        Assert.Equal(isExplained, _charge.Open is null);
    }

    // 100 L of mix out and 100 L of 8 % in: nothing gained. Without the record of the removal it would be a gain of 100 L.
    [Theory]
    [InlineData(100, null)]
    [InlineData(0, Direction.High)]
    public void Check_SwapOfMix_Closes(int removed, Direction? side)
    {
        _charge.Numbers[BalanceRule.PouredWithinPercent] = 0;
        Read(250, 8.0m);
        _charge.After(1).Moves(removed: removed);
        _charge.Moves(water: 92, concentrate: 8).After(6);
        Read(removed > 0 ? 250 : 380, 8.0m);

        Assert.Equal(side is null, _charge.Open is null);
    }

    // 100 L of mix were taken out and written down, yet the level stands where it stood: 100 L of water got in.
    [Fact]
    public void Check_TakenOutButStillThere_IsAGain()
    {
        _charge.Numbers[BalanceRule.PouredWithinPercent] = 0;
        Read(250, 8.0m);
        _charge.After(1).Moves(removed: 100);
        _charge.After(6);
        Read(250, 4.8m);

        Assert.Equal((Direction.High, 100.0m), (_charge.Open?.Direction, _charge.Open?.Numbers[NumberNames.GainedLitres]));
    }

    // 5 L of concentrate got in unrecorded; at 9 % in the middle they are 55.6 L of mix.
    [Fact]
    public void Check_ConcentrateGained_TellsTheMixItStandsFor()
    {
        Read(250, 8.0m);
        _charge.After(7);
        Read(250, 10.0m);

        Assert.Equal((Direction.Low, 5.0m), (_charge.Open?.Direction, _charge.Open?.Numbers[NumberNames.GainedConcentrate]));
        Assert.InRange(_charge.Open?.Numbers[NumberNames.GainedLitres] ?? 0, 55, 56);
    }

    // 100 L poured are good to 10 L: 30 L more than that may be the pouring. Poured to the litre they are not.
    [Theory]
    [InlineData(10, true)]
    [InlineData(0, false)]
    public void Check_PouredInexactly_AllowsForIt(int within, bool isExplained)
    {
        _charge.Numbers[BalanceRule.PouredWithinPercent] = within;
        Read(200, 8.0m);
        _charge.After(1).Moves(water: 92, concentrate: 8).After(6);
        Read(320, 7.5m);

        Assert.Equal(isExplained, _charge.Open is null);
    }

    // The share that is left alone is of the full mark, 300 L.
    [Theory]
    [InlineData(2, true)]
    [InlineData(10, false)]
    public void Check_LeastShareTuned_IsTaken(int share, bool isFlagged)
    {
        _charge.Numbers[BalanceRule.LeastPercent] = share;
        Read(250, 8.0m);
        _charge.After(7);
        Read(280, 7.1m);

        Assert.Equal(isFlagged, _charge.Open is not null);
    }

    // An instrument that is good to little explains more: a refractometer of water gained, a rule of mix.
    [Theory]
    [InlineData(280, 7.1, 4, 0.2, true)]
    [InlineData(280, 7.1, 4, 1.5, false)]
    [InlineData(290, 8.0, 4, 0.2, true)]
    [InlineData(290, 8.0, 24, 0.2, false)]
    public void Check_StatedUncertainty_IsAllowedFor(int now, double percentNow, int level, double percent, bool isFlagged)
    {
        Uncertain(250, 8.0m, level, (decimal)percent);
        _charge.After(7);
        Uncertain(now, (decimal)percentNow, level, (decimal)percent);

        Assert.Equal(isFlagged, _charge.Open is not null);
    }

    [Theory]
    [InlineData(0, 8.0, 1)]
    [InlineData(400, 8.0, 1)]
    [InlineData(-1, 8.0, 0)]
    [InlineData(401, 8.0, 0)]
    [InlineData(250, 0.0, 1)]
    [InlineData(250, 100.0, 1)]
    [InlineData(250, -0.1, 0)]
    [InlineData(250, 100.1, 0)]
    public void Check_AtTheEdgeOfWhatThereCanBe_HasAnOpinion(int level, double percent, int opinions)
    {
        Read(250, 8.0m);
        _charge.After(7);

        Assert.Equal(opinions, _charge.Reads(Some.Measured(ParameterCodes.Level, level), Some.Measured(ParameterCodes.Concentration, (decimal)percent)).Count);
    }

    [Theory]
    [InlineData(401, 8.0)]
    [InlineData(250, 100.1)]
    public void Check_ReadingBeforeOutsideWhatThereCanBe_HasNoOpinion(int level, double percent)
    {
        Read(level, (decimal)percent);

        Assert.Empty(_charge.After(7).Reads(Some.Measured(ParameterCodes.Level, 250), Some.Measured(ParameterCodes.Concentration, 8)));
    }

    [Fact]
    public void Check_LaterValueKnown_HasNoOpinion()
    {
        Read(250, 8.0m);
        var reading = new ReadingFacts(Some.Id(9), _charge.After(7).Now, [Some.Measured(ParameterCodes.Level, 280), Some.Measured(ParameterCodes.Concentration, 7.1m)]);

        Assert.Empty(_charge.Judge(reading, laterKnown: _charge.Now.AddHours(1)));
        Assert.Single(_charge.Judge(reading));
    }

    private void Read(int level, decimal percent) => _charge.Reads(Some.Measured(ParameterCodes.Level, level), Some.Measured(ParameterCodes.Concentration, percent));

    private void Uncertain(int level, decimal percent, int levelWithin, decimal percentWithin) =>
        _charge.Reads(new MeasurementFacts(ParameterCodes.Level, "", level, levelWithin), new(ParameterCodes.Concentration, "", percent, percentWithin));
}
