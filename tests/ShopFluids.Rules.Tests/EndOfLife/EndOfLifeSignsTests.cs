using ShopFluids.Rules.EndOfLife;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Rules.Tests.EndOfLife;

/// <summary>How each sign of a worn charge is reckoned, and what an open flag still counts. Filled at pH 9.0; salts flag at two and a half times the fill.</summary>
public sealed class EndOfLifeSignsTests
{
    private static readonly EndOfLifeRule Rule = new();

    // The salt that has risen most is told, in whatever order they were read.
    [Theory]
    [InlineData(2100, 132, 3.3)]
    [InlineData(2640, 105, 3.3)]
    public void Check_TwoSaltsBuildUp_TellsTheOneThatRoseMost(int conductivity, int chloride, double times)
    {
        ReadingFacts[] past = [.. Daily(ParameterCodes.Conductivity, 800, 800, 800, conductivity), .. Daily(ParameterCodes.Chloride, 40, 40, 40, chloride)];

        var flag = Judge([Some.Measured(ParameterCodes.Conductivity, conductivity), Some.Measured(ParameterCodes.Chloride, chloride)], past, days: 100).Flag;

        Assert.Equal((decimal)times, flag?.Numbers[NumberNames.SaltTimes]);
        Assert.Equal((800m, 40m), (flag?.Numbers["first:conductivity"], flag?.Numbers["first:chloride"]));
    }

    // The middle of the first three, in whatever order they came: 800 of 1200, 400 and 800.
    [Fact]
    public void Check_FirstValues_TheMiddleOneCounts()
    {
        var flag = Judge([Some.Measured(ParameterCodes.Conductivity, 2000)], Daily(ParameterCodes.Conductivity, 1200, 400, 800, 2000), days: 100).Flag;

        Assert.Equal((2.5m, 800m), (flag?.Numbers[NumberNames.SaltTimes], flag?.Numbers["first:conductivity"]));
    }

    [Fact]
    public void Check_FilledWithNoneOfASalt_IsNoBuildUp() =>
        Assert.Null(Judge([Some.Measured(ParameterCodes.Chloride, 90)], Daily(ParameterCodes.Chloride, 0, 0, 0, 90), days: 100).Flag);

    // What the flag was raised by keeps it until the salt is down by a fifth of the fill: 2.3 times 800 is 1840.
    [Theory]
    [InlineData(1840, true)]
    [InlineData(1839, false)]
    public void Check_SaltsFallWhileFlagged_KeepsTheFlagToItsMargin(int value, bool isKept)
    {
        var past = Daily(ParameterCodes.Conductivity, 800, 800, 800, 2100, 2100);

        Assert.Equal(isKept, Judge([Some.Measured(ParameterCodes.Conductivity, value)], past, days: 100, open: Open()).Flag is not null);
    }

    // An old charge whose pH has fallen by 0.5; while it is flagged 0.4 will do.
    [Theory]
    [InlineData(8.5, false, true)]
    [InlineData(8.6, false, false)]
    [InlineData(8.6, true, true)]
    [InlineData(8.61, true, false)]
    public void Check_PhFallen_TakesLessToKeepTheFlag(double ph, bool isOpen, bool isFound)
    {
        var opinion = Judge([Some.Measured(ParameterCodes.Ph, (decimal)ph)], Daily(ParameterCodes.Ph, (decimal)ph), days: 400, open: isOpen ? Open() : null);

        Assert.Equal(isFound, opinion.Flag is not null);
    }

    // With many readings the slides that were counted are out of sight: what the flag has counted stays counted.
    [Theory]
    [InlineData(3, true)]
    [InlineData(2, false)]
    public void Check_ComebacksOutOfSight_StayCountedWhileFlagged(int counted, bool isKept)
    {
        var open = Open() with { Numbers = new Dictionary<string, decimal> { [NumberNames.Comebacks] = counted } };

        Assert.Equal(isKept, Judge([Some.Measured(ParameterCodes.Ph, 9)], Daily(ParameterCodes.Ph, 9), days: 400, open: open).Flag is not null);
    }

    // What a flag was raised with is told as long as it stands.
    [Fact]
    public void Check_StillWorn_TellsWhatItWasRaisedWith()
    {
        var open = Open() with { Numbers = new Dictionary<string, decimal> { [NumberNames.Days] = 300, [NumberNames.Comebacks] = 4, [NumberNames.Drop] = 0.7m } };

        var flag = Judge([Some.Measured(ParameterCodes.Ph, 8.4m)], Daily(ParameterCodes.Ph, 8.4m), days: 400, open: open).Flag;

        Assert.Equal((300m, 4m, 0.7m), (flag?.Numbers[NumberNames.Days], flag?.Numbers[NumberNames.Comebacks], flag?.Numbers[NumberNames.Drop]));
    }

    // From under the line to it or over it is a comeback; a slide that only stays over it is none. The slide read now counts too.
    [Theory]
    [InlineData("3,5,3,5,3", 5.0, 3)]
    [InlineData("3,5,3,5,3", 4.9, 2)]
    [InlineData("5,3,5,5,3", 6.0, 2)]
    [InlineData("4.9,5,4.9,5,4.9,5,5", 5.0, 3)]
    public void Check_Slides_AreCountedAsTheyComeBack(string past, double now, int comebacks)
    {
        var slides = past.Split(',').Select(v => decimal.Parse(v, System.Globalization.CultureInfo.InvariantCulture)).ToArray();

        var flag = Judge([Some.Measured(ParameterCodes.Bacteria, (decimal)now)], Daily(ParameterCodes.Bacteria, slides), days: 400).Flag;

        Assert.Equal(comebacks >= 3 ? comebacks : null, flag?.Numbers[NumberNames.Comebacks]);
    }

    // A slide is read, the pH is not: it stands as it was found twice before.
    [Theory]
    [InlineData("8.4,8.4", true)]
    [InlineData("9.0,8.4", false)]
    [InlineData("8.4", false)]
    public void Check_PhNotReadThisTime_StandsAsItWasLast(string before, bool isFound)
    {
        var ph = before.Split(',').Select(v => decimal.Parse(v, System.Globalization.CultureInfo.InvariantCulture)).ToArray();

        Assert.Equal(isFound, Judge([Some.Measured(ParameterCodes.Bacteria, 3)], Daily(ParameterCodes.Ph, ph), days: 400).Flag is not null);
    }

    [Theory]
    [InlineData(ParameterCodes.Ph, true)]
    [InlineData(ParameterCodes.Bacteria, true)]
    [InlineData(ParameterCodes.Conductivity, true)]
    [InlineData(ParameterCodes.Chloride, true)]
    [InlineData(ParameterCodes.Hardness, true)]
    [InlineData(ParameterCodes.Odour, false)]
    [InlineData(ParameterCodes.Concentration, false)]
    public void Check_WhatWasRead_TellsOfWearOrNot(string parameter, bool tells) =>
        Assert.Equal(tells ? 1 : 0, Rule.Check(Case([Some.Measured(parameter, 3)], [], 400, null)).Count());

    // A flag of before the number was carried is due like one raised by the default.
    [Fact]
    public void WorkWithin_FlagWithoutTheNumber_IsTheUsualTwoWeeks() =>
        Assert.Equal(TimeSpan.FromDays(14), Rule.WorkWithin(new(EndOfLifeRule.RuleCode, 1, "", Verdict.Warning, Direction.None, new Dictionary<string, decimal>())));

    private static RuleOpinion Judge(MeasurementFacts[] measured, IReadOnlyList<ReadingFacts> past, int days, OpenFlag? open = null) => Assert.Single(Rule.Check(Case(measured, past, days, open)));

    private static RuleCase Case(MeasurementFacts[] measured, IReadOnlyList<ReadingFacts> past, int days, OpenFlag? open)
    {
        var standing = Some.Standing(flags: open is null ? [] : [open]) with { FilledAt = Some.Now.AddDays(-days), FirstFillPh = 9.0m };
        return new(Some.Input(new ReadingFacts(Some.Id(900), Some.Now, measured), standing) with { History = new(past, []) }, Rule);
    }

    private static OpenFlag Open() => Some.Flag(EndOfLifeRule.RuleCode, "", Verdict.Warning, Direction.None);

    private static ReadingFacts[] Daily(string parameter, params decimal[] values) =>
        [.. values.Select((v, i) => new ReadingFacts(Some.Id(910 + i), Some.Now.AddDays(i - values.Length), [Some.Measured(parameter, v)]))];
}
