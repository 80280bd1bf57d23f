using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Patterns;

namespace ShopFluids.Rules.Tests.Patterns;

/// <summary>
/// What changed beyond what was put in and taken out, with its uncertainty: 1 L for each millimetre, full at 300 L, target 6 %. Where none is stated a
/// level is good to 4 mm, a concentration to 0.2 %, what was poured to a tenth.
/// </summary>
public sealed class PatternMixTests
{
    // Two levels good to 4 L are 5.66 L together, of 300 L; two concentrations good to 0.2 %.
    [Fact]
    public void Of_NoUncertaintyStated_TakesWhatHandInstrumentsGive()
    {
        var facts = Facts([Full(-7, 300, 6), Full(0, 270, 6.7m)]);

        Assert.Equal((-10m, 1.8856m), Rounded(facts.Changes[ParameterCodes.Level]));
        Assert.Equal((0.7m, 0.2828m), Rounded(facts.Changes[ParameterCodes.Concentration]));
    }

    // 30 L of water: good to 3 L, and at 6 % weaker than the mix they may move it by 0.0545 % of 330 L.
    [Fact]
    public void Of_WaterPoured_AddsItsUncertainty()
    {
        var facts = Facts([Full(-7, 300, 6), Full(0, 300, 6)], new MovementFacts(Some.Now.AddDays(-3), 30, 0, 0));

        Assert.Equal(2.1344m, Rounded(facts.Changes[ParameterCodes.Level]).Uncertainty);
        Assert.Equal(0.2881m, Rounded(facts.Changes[ParameterCodes.Concentration]).Uncertainty);
    }

    [Fact]
    public void Of_UncertaintyStated_IsTakenWhereItIsLarger()
    {
        ReadingFacts Stated(double day) => new(Some.Id(1), Some.Now.AddDays(day), [new(ParameterCodes.Level, "", 300, 6), new(ParameterCodes.Concentration, "", 6, 0.3m)]);

        var facts = Facts([Stated(-7), Stated(0)]);

        Assert.Equal((0m, 2.8284m), Rounded(facts.Changes[ParameterCodes.Level]));
        Assert.Equal((0m, 0.4243m), Rounded(facts.Changes[ParameterCodes.Concentration]));
    }

    // 100 of 300 L out, 90 L of water and 10 L of concentrate in: 22 L in 300 L are 7.33 %. Both amounts are good to a tenth.
    [Fact]
    public void Of_PartExchanged_IsReckonedWith()
    {
        var facts = Facts([Full(-7, 300, 6), Full(0, 300, 7)], new(Some.Now.AddDays(-3), 0, 0, 100), new(Some.Now.AddDays(-2), 90, 10, 0));

        Assert.Equal((0m, 6.9282m), Rounded(facts.Changes[ParameterCodes.Level]));
        Assert.Equal((-0.3333m, 0.3887m), Rounded(facts.Changes[ParameterCodes.Concentration]));
    }

    // All of it was taken out and nothing put in: of what is left no strength can be told.
    [Fact]
    public void Of_AllTakenOut_TellsTheLevelAlone()
    {
        var facts = Facts([Full(-7, 300, 6), Full(0, 10, 6)], new MovementFacts(Some.Now.AddDays(-3), 0, 0, 300));

        Assert.Equal([ParameterCodes.Level], facts.Changes.Keys);
    }

    // What is poured at the moment of the first reading came after it, at the moment of the second after that.
    [Theory]
    [InlineData(-7.0, true)]
    [InlineData(-7.001, false)]
    [InlineData(-0.001, true)]
    [InlineData(0.0, false)]
    public void Of_MovementAtTheMomentOfAReading_CameAfterIt(double day, bool counts)
    {
        var facts = Facts([Full(-7, 270, 6), Full(0, 300, 6)], new MovementFacts(Some.Now.AddDays(day), 30, 0, 0));

        Assert.Equal(counts ? 0m : 10m, facts.Changes[ParameterCodes.Level].Value);
    }

    // Two readings up to two weeks apart, and four hours at least; a closer one is passed over.
    [Theory]
    [InlineData(-14.0, true)]
    [InlineData(-14.001, false)]
    public void Of_GapOfTwoReadings_IsAtMostTwoWeeks(double day, bool isCompared) =>
        Assert.Equal(isCompared, Facts([Full(day, 300, 6), Full(0, 270, 6)]).Changes.ContainsKey(ParameterCodes.Level));

    [Theory]
    [InlineData(-4.0, 290)]
    [InlineData(-3.999, 300)]
    public void Of_ReadingOfTheSameVisit_IsPassedOver(double hours, int comparedWith)
    {
        var facts = Facts([Full(-7, 300, 6), Full(hours / 24, 290, 6), Full(0, 270, 6)]);

        Assert.Equal(Math.Round((270m - comparedWith) / 3, 6), Math.Round(facts.Changes[ParameterCodes.Level].Value, 6));
    }

    // The last reading tells only pH: the last full ones are compared, as long as they are not too old.
    [Theory]
    [InlineData(-13.5, true)]
    [InlineData(-14.5, false)]
    public void Of_LastReadingNotFull_TheLastFullOneCountsForTwoWeeks(double lastFull, bool isCompared)
    {
        var facts = Facts([Full(lastFull - 7, 300, 6), Full(lastFull, 270, 6), Reading(0, (ParameterCodes.Ph, 9))]);

        Assert.Equal(isCompared, facts.Changes.ContainsKey(ParameterCodes.Level));
    }

    [Theory]
    [InlineData(0, true)]
    [InlineData(-1, false)]
    [InlineData(400, true)]
    [InlineData(401, false)]
    public void Of_LevelAtTheEdgeOfTheSump_Counts(int level, bool isCompared) =>
        Assert.Equal(isCompared, Facts([Full(-7, level, 6), Full(0, 270, 6)]).Changes.ContainsKey(ParameterCodes.Level));

    // 40 L of 3 % and 60 L of 8 % are 100 L of 6 %: just the target. What was only taken out, or comes after the reading, is none of it.
    [Fact]
    public void Of_SeveralAdditions_TellTheirStrengthTogether()
    {
        var facts = Facts(
            [Full(-10, 300, 6), Full(0, 300, 6)],
            new(Some.Now.AddDays(-9), 38.8, 1.2, 0),
            new(Some.Now.AddDays(-8), 0, 0, 90),
            new(Some.Now.AddDays(-7), 55.2, 4.8, 0),
            new(Some.Now.AddHours(1), 50, 0, 0));

        Assert.Equal(100m, Math.Round(facts.Values[PatternSubjects.AddedShare].Value, 9));
    }

    [Fact]
    public void Of_OnlyTakenOut_TellsNoStrength() =>
        Assert.False(Facts([Full(0, 300, 6)], new MovementFacts(Some.Now.AddDays(-8), 0, 0, 90)).Values.ContainsKey(PatternSubjects.AddedShare));

    private static PatternFacts Facts(ReadingFacts[] readings, params MovementFacts[] movements) =>
        PatternFacts.Of(new(Some.Sump(), 6, [], null, Some.Now.AddDays(-90), new(readings, movements), [], new(null, null), []));

    private static (decimal Value, decimal Uncertainty) Rounded(PatternNumber number) => (Math.Round(number.Value, 4), Math.Round(number.Uncertainty, 4));

    private static ReadingFacts Full(double day, decimal level, decimal percent) => Reading(day, (ParameterCodes.Level, level), (ParameterCodes.Concentration, percent));

    private static ReadingFacts Reading(double day, params (string Parameter, decimal Value)[] values) =>
        new(Some.Id(1), Some.Now.AddDays(day), [.. values.Select(v => Some.Measured(v.Parameter, v.Value))]);
}
