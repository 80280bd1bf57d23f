using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Patterns;

namespace ShopFluids.Rules.Tests.Patterns;

/// <summary>What is known of a charge at its last reading: 1 L for each millimetre, full at 300 L, target 6 %.</summary>
public sealed class PatternFactsTests
{
    [Fact]
    public void Of_NoReading_KnowsTheWaterOnly()
    {
        var facts = PatternFacts.Of(Case([]) with { Water = new(40, null) });

        Assert.Equal([PatternSubjects.WaterHardness], facts.Values.Keys);
        Assert.Empty(facts.Judged);
    }

    [Theory]
    [InlineData(ParameterCodes.Odour, 7)]
    [InlineData(ParameterCodes.Ph, 14)]
    [InlineData(ParameterCodes.Hardness, 60)]
    public void Of_OldValue_CountsForItsDaysOnly(string parameter, int days)
    {
        PatternFacts At(double daysBefore) => PatternFacts.Of(Case([Reading(-daysBefore, (parameter, 2)), Reading(0, (ParameterCodes.Temperature, 20))]));

        Assert.True(At(days).Values.ContainsKey(parameter));
        Assert.False(At(days + 0.01).Values.ContainsKey(parameter));
    }

    [Fact]
    public void Of_Change_IsFromTheMiddleOfTheSixBefore()
    {
        decimal[] before = [5, 9.0m, 9.1m, 9.0m, 9.2m, 8.9m, 9.0m];
        var facts = PatternFacts.Of(Case([.. before.Select((v, i) => Reading(i - 10, (ParameterCodes.Ph, v))), Reading(0, (ParameterCodes.Ph, 8.4m))]));

        Assert.Equal(-0.6m, facts.Changes[ParameterCodes.Ph].Value);
    }

    [Fact]
    public void Of_FirstReading_HasNoChange() => Assert.Empty(PatternFacts.Of(Case([Reading(0, (ParameterCodes.Ph, 8.4m))])).Changes);

    [Theory]
    [InlineData(4.9, Direction.Low)]
    [InlineData(5.0, null)]
    [InlineData(8.0, null)]
    [InlineData(8.1, Direction.High)]
    public void Of_Limits_JudgeTheLatest(double percent, Direction? expected) =>
        Assert.Equal(expected, PatternFacts.Of(Case([Reading(0, (ParameterCodes.Concentration, (decimal)percent))])).Judged[ParameterCodes.Concentration]);

    [Fact]
    public void Of_NoLimits_IsNeitherWithinNorBeyond() =>
        Assert.False(PatternFacts.Of(Case([Reading(0, (ParameterCodes.Ph, 7m))])).Judged.ContainsKey(ParameterCodes.Ph));

    // 300 L at 6 %; 30 L evaporate: 270 L at 6.67 %.
    [Fact]
    public void Of_WaterGone_LevelFallsAndStrengthRises()
    {
        var facts = PatternFacts.Of(Case([Full(-7, 300, 6), Full(0, 270, 6.7m)]));

        Assert.Equal(-10m, facts.Changes[ParameterCodes.Level].Value);
        Assert.Equal(0.7m, facts.Changes[ParameterCodes.Concentration].Value, 6);
        Assert.Equal(Support.For, PatternEvidence.Judge(PatternCondition.Parse("level fell 3"), facts));
    }

    // The same with 30 L of water put back: the levels are equal, and yet 30 L are gone.
    [Fact]
    public void Of_WhatWasPutIn_IsReckonedWith()
    {
        var facts = PatternFacts.Of(Case([Full(-7, 300, 6), Full(0, 300, 6)], new MovementFacts(Some.Now.AddDays(-3), 30, 0, 0)));

        Assert.Equal(-10m, facts.Changes[ParameterCodes.Level].Value);
        Assert.Equal(6m - (100m * 18m / 330m), facts.Changes[ParameterCodes.Concentration].Value, 6);
        Assert.Equal(0m, facts.Values[PatternSubjects.AddedShare].Value);
    }

    [Fact]
    public void Of_ReadingsFarApart_AreNotCompared() =>
        Assert.Empty(PatternFacts.Of(Case([Full(-14.1, 300, 6), Full(0, 270, 6.7m)])).Changes);

    [Theory]
    [InlineData(-21.0, true)]
    [InlineData(-21.1, false)]
    public void Of_PutIn_CountsForThreeWeeks(double day, bool isKnown)
    {
        var facts = PatternFacts.Of(Case([Full(0, 300, 6)], new MovementFacts(Some.Now.AddDays(day), 9.4, 0.6, 0)));

        Assert.Equal(isKnown, facts.Values.TryGetValue(PatternSubjects.AddedShare, out var share));
        Assert.Equal(isKnown ? 100m : 0m, share.Value, 6);
    }

    [Fact]
    public void Of_BothMethods_GiveTheirGapAndTitrationDecides()
    {
        var reading = new ReadingFacts(Some.Id(1), Some.Now,
        [
            new(ParameterCodes.Concentration, MethodCodes.Refractometer, 9, 0.3m),
            new(ParameterCodes.Concentration, MethodCodes.Titration, 7, 0.4m),
        ]);
        var facts = PatternFacts.Of(Case([reading]));

        Assert.Equal(new PatternNumber(2, 0.5m), facts.Values[PatternSubjects.MethodGap]);
        Assert.Equal(7, facts.Values[ParameterCodes.Concentration].Value);
        Assert.Null(facts.Judged[PatternSubjects.Titration]);
    }

    [Fact]
    public void Of_LevelOverTheBrim_IsNotReckonedWith() =>
        Assert.Empty(PatternFacts.Of(Case([Full(-7, 300, 6), Full(0, 401, 6)])).Changes);

    private static ReadingFacts Full(double day, decimal level, decimal percent) => Reading(day, (ParameterCodes.Level, level), (ParameterCodes.Concentration, percent));

    private static ReadingFacts Reading(double day, params (string Parameter, decimal Value)[] values) =>
        new(Some.Id((int)(day * 100) + 100_000), Some.Now.AddDays(day), [.. values.Select(v => Some.Measured(v.Parameter, v.Value))]);

    private static PatternCase Case(ReadingFacts[] readings, params MovementFacts[] movements) =>
        new(Some.Sump(), 6, [Some.Limits()], null, Some.Now.AddDays(-90), new(readings, movements), [], new(null, null), []);
}
