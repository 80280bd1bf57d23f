using System.Globalization;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Registry;
using ShopFluids.Rules.SuddenChange;
using ShopFluids.Rules.Tests.Course;

namespace ShopFluids.Rules.Tests.SuddenChange;

/// <summary>What is a sudden change, and what is not.</summary>
public sealed class SuddenChangeRuleTests
{
    // Changes of 0.1: mean range 0.1, limit 0.3267, above two steps of the display.
    private static readonly decimal[] Steady = [9.0m, 9.1m, 9.0m, 9.1m, 9.0m, 9.1m, 9.0m, 9.1m, 9.0m];

    /// <summary>NIST/SEMATECH e-Handbook 6.3.2.2, flow rate: the limit of the moving range is published as 6.1349 (3.267 x 1.8778).</summary>
    [Theory]
    [InlineData("45.97", false)]
    [InlineData("45.96", true)]
    [InlineData("58.23", false)]
    [InlineData("58.24", true)]
    public void Check_NistFlowRate_IsFlaggedBeyondThePublishedRangeLimit(string next, bool flagged)
    {
        var charge = Read([.. Vector.Rows("nist_individuals_chart.csv").Select(r => decimal.Parse(r[1], CultureInfo.InvariantCulture))], ParameterCodes.Conductivity);

        charge.Reads(ParameterCodes.Conductivity, decimal.Parse(next, CultureInfo.InvariantCulture));

        Assert.Equal(flagged, charge.Open is not null);
        Assert.Equal(flagged ? 6.135m : 0, charge.Open?.Numbers[NumberNames.ChangeLimit] ?? 0);
    }

    [Theory]
    [InlineData("9.32", false)]
    [InlineData("9.33", true)]
    [InlineData("8.68", false)]
    [InlineData("8.67", true)]
    public void Check_BeyondTheLimit_IsFlagged(string next, bool flagged)
    {
        var charge = Read(Steady);

        charge.Reads(ParameterCodes.Ph, decimal.Parse(next, CultureInfo.InvariantCulture));

        Assert.Equal(flagged, charge.Open is not null);
    }

    [Fact]
    public void Check_Flagged_CarriesItsNumbers()
    {
        var charge = Read(Steady);

        var flag = Assert.Single(charge.Reads(Some.Measured(ParameterCodes.Ph, 8.4m))).Flag;

        Assert.NotNull(flag);
        Assert.Equal((SuddenChangeRule.RuleCode, 2, ParameterCodes.Ph, Verdict.Warning, Direction.Low), (flag.Rule, flag.RuleVersion, flag.Parameter, flag.Severity, flag.Direction));
        Assert.Equal(
            new Dictionary<string, decimal>
            {
                [NumberNames.ChangeLimit] = 0.327m,
                [NumberNames.Changes] = 8,
                [NumberNames.ExpectedChange] = 0,
                [NumberNames.Previous] = 9.0m,
                [NumberNames.TakenAt] = new DateTimeOffset(Some.Now.AddDays(7 * Steady.Length)).ToUnixTimeMilliseconds(),
                [NumberNames.Value] = 8.4m,
            },
            flag.Numbers);
    }

    [Theory]
    [InlineData(7, false)]
    [InlineData(8, true)]
    public void Check_TooFewChanges_HasNoOpinion(int changes, bool judges)
    {
        var charge = Read(Steady[..(changes + 1)]);

        Assert.Equal(judges, charge.Reads(Some.Measured(ParameterCodes.Ph, 8.0m)).Count == 1);
    }

    [Theory]
    [InlineData("9.2", false)]
    [InlineData("9.3", true)]
    public void Check_RunOfEqualValues_DoesNotFlagTheResolution(string next, bool flagged)
    {
        var charge = Read([9.0m, 9.0m, 9.0m, 9.0m, 9.0m, 9.0m, 9.0m, 9.0m, 9.0m, 9.0m]);

        charge.Reads(ParameterCodes.Ph, decimal.Parse(next, CultureInfo.InvariantCulture));

        Assert.Equal(flagged, charge.Open is not null);
    }

    // As the database gives them back: 9.0 is 9, and only the reading judged tells that it has one decimal. Two steps are 0.2; 0.5 % at least.
    [Theory]
    [InlineData("9.5", false)]
    [InlineData("9.6", true)]
    public void Check_ValuesWithoutTheirZeros_AreNoCoarserForIt(string next, bool flagged)
    {
        var charge = new Charge(new SuddenChangeRule()).Reads(ParameterCodes.Concentration, 9, 9, 9, 9, 9, 9, 9, 9, 9, 9);

        charge.Reads(ParameterCodes.Concentration, decimal.Parse(next, CultureInfo.InvariantCulture));

        Assert.Equal(flagged, charge.Open is not null);
    }

    [Theory]
    [InlineData("9.5", false)]
    [InlineData("9.51", true)]
    public void Check_UncertainReadings_AreAllowedTheirUncertainty(string next, bool flagged)
    {
        // 0.3 and 0.4 combine to 0.5.
        var charge = Read([9.0m, 9.0m, 9.0m, 9.0m, 9.0m, 9.0m, 9.0m, 9.0m]);
        charge.Reads(Some.Measured(ParameterCodes.Ph, 9.0m) with { Uncertainty = 0.3m });
        charge.After(7);

        charge.Reads(Some.Measured(ParameterCodes.Ph, decimal.Parse(next, CultureInfo.InvariantCulture)) with { Uncertainty = 0.4m });

        Assert.Equal(flagged, charge.Open is not null);
    }

    [Fact]
    public void Check_EarlierWildReading_DoesNotBlindIt()
    {
        // The two ranges of 3 would make the mean range 0.62 and the limit 2.0.
        var charge = Read([9.0m, 9.1m, 9.0m, 9.1m, 6.1m, 9.1m, 9.0m, 9.1m, 9.0m, 9.1m, 9.0m, 9.1m]);

        Assert.NotNull(Assert.Single(charge.Reads(Some.Measured(ParameterCodes.Ph, 8.6m))).Flag);
        Assert.Equal(9, charge.Open?.Numbers[NumberNames.Changes]);
    }

    // Ranges beyond 3.267 times what the median of 0.1 stands for, 0.3865, are wild; of a run of equal values those beyond two steps of the display.
    [Theory]
    [InlineData("9.0 9.1 9.0 9.38 9.48 9.38 9.48 9.38 9.48 9.38", 9)]
    [InlineData("9.0 9.1 9.0 9.39 9.49 9.39 9.49 9.39 9.49 9.39", 8)]
    [InlineData("10 10 10 12 12 12 12 12 12 12", 9)]
    [InlineData("10 10 10 13 13 13 13 13 13 13", 8)]
    public void Check_RangeAmongTheEarlierOnes_IsWildBeyondTheLimitOfTheirMedian(string values, int changes)
    {
        var charge = Read([.. values.Split(' ').Select(v => decimal.Parse(v, CultureInfo.InvariantCulture))], ParameterCodes.Conductivity);

        charge.Reads(ParameterCodes.Conductivity, 90m);

        Assert.Equal(changes, charge.Open?.Numbers[NumberNames.Changes]);
    }

    // Weeks without a reading: what changed meanwhile is none of the changes from one reading to the next.
    [Theory]
    [InlineData(28, 1)]
    [InlineData(28.01, 0)]
    public void Check_GapAmongTheEarlierReadings_ItsChangeDoesNotCount(double days, int opinions)
    {
        var charge = Read(Steady[..5]).After(days).Reads(ParameterCodes.Ph, Steady[5..]);

        Assert.Equal(opinions, charge.Reads(Some.Measured(ParameterCodes.Ph, 8.0m)).Count);
    }

    // One decimal more than the parameter's none: two steps of that are 0.2.
    [Theory]
    [InlineData("100.7", false)]
    [InlineData("100.8", true)]
    public void Check_FinerInstrument_HasFinerSteps(string next, bool flagged)
    {
        var charge = new Charge(new SuddenChangeRule());
        foreach (var value in Enumerable.Repeat(100.5m, 10).Append(decimal.Parse(next, CultureInfo.InvariantCulture)))
        {
            charge.Reads(Some.Measured(ParameterCodes.Conductivity, value) with { Decimals = 0 });
            charge.After(7);
        }

        Assert.Equal(flagged, charge.Open is not null);
    }

    // From 9.0 by more than 0.3267, but from the reading before by no more than half of it: the last reading was the odd one.
    [Theory]
    [InlineData("9.2", false)]
    [InlineData("9.1", true)]
    public void Check_ReadingBeforeTheLastHardlyDiffers_IsNoFinding(string earlier, bool flagged)
    {
        var charge = Read([.. Steady, 9.1m, decimal.Parse(earlier, CultureInfo.InvariantCulture), 9.0m]);

        charge.Reads(ParameterCodes.Ph, 9.36m);

        Assert.Equal(flagged, charge.Open is not null);
    }

    [Fact]
    public void Check_BackFromAReadingThatWasNotFlagged_IsNoFinding()
    {
        // Too few changes when the wrong value came, enough on the way back.
        var charge = Read([.. Steady[..8], 7.0m]);

        Assert.Null(Assert.Single(charge.Reads(Some.Measured(ParameterCodes.Ph, 9.0m))).Flag);
        Assert.Null(charge.Open);
    }

    [Theory]
    [InlineData(28, true)]
    [InlineData(28.01, false)]
    public void Check_LongAfterTheLastReading_HasNoOpinion(double days, bool judges)
    {
        var charge = Read(Steady);

        Assert.Equal(judges, charge.After(days).Reads(Some.Measured(ParameterCodes.Ph, 8.0m)).Count == 1);
    }

    [Fact]
    public void Check_LaterValueKnown_HasNoOpinion()
    {
        var charge = Read(Steady);

        Assert.Empty(charge.Judge(new(Some.Id(99), charge.Now, [Some.Measured(ParameterCodes.Ph, 8.0m)]), laterKnown: charge.Now.AddHours(1)));
    }

    [Fact]
    public void Check_LevelWordsAndSlides_AreNotLookedAt()
    {
        string[] others = [ParameterCodes.Level, ParameterCodes.Odour, ParameterCodes.Bacteria, ParameterCodes.Temperature, ParameterCodes.TrampOil];

        Assert.All(others, p => Assert.Empty(Read([1, 2, 1, 2, 1, 2, 1, 2, 1, 2], p).Reads(Some.Measured(p, 9))));
    }

    [Fact]
    public void Check_AnotherMethod_IsASeriesOfItsOwn()
    {
        var charge = new Charge(new SuddenChangeRule());
        foreach (var value in Steady)
        {
            charge.Reads(Some.Measured(ParameterCodes.Concentration, value, MethodCodes.Refractometer));
            charge.After(7);
        }

        Assert.Empty(charge.Reads(Some.Measured(ParameterCodes.Concentration, 6.0m, MethodCodes.Titration)));
        Assert.NotNull(Assert.Single(charge.Reads(
            Some.Measured(ParameterCodes.Concentration, 6.0m, MethodCodes.Titration),
            Some.Measured(ParameterCodes.Concentration, 7.0m, MethodCodes.Refractometer))).Flag);
    }

    [Fact]
    public void Check_TunedNumbers_AreUsed()
    {
        var charge = Read(Steady[..6]);
        charge.Numbers[SuddenChangeRule.LeastChanges] = 5;
        charge.Numbers[SuddenChangeRule.LimitFactor] = 6;

        charge.Reads(ParameterCodes.Ph, 8.5m);
        Assert.Null(charge.Open);
        charge.Reads(ParameterCodes.Ph, 7.0m);

        Assert.NotNull(charge.Open);
    }

    [Fact]
    public void Check_MuchOfTheFluidExchanged_HasNoOpinionOfAnythingButConcentration()
    {
        // The full mark is at 300 L.
        var charge = Read(Steady);
        charge.After(-3).Moves(water: 80, concentrate: 10).After(3);
        Assert.Single(charge.Reads(Some.Measured(ParameterCodes.Ph, 8.0m)));

        // A swap exchanges what it takes out, and no more by what it puts in.
        charge = Read(Steady);
        charge.After(-3).Moves(removed: 90).Moves(water: 80, concentrate: 10).After(3);
        Assert.Single(charge.Reads(Some.Measured(ParameterCodes.Ph, 8.0m)));

        charge = Read(Steady);
        charge.After(-3).Moves(water: 80, concentrate: 11).After(3);
        Assert.Empty(charge.Reads(Some.Measured(ParameterCodes.Ph, 8.0m)));
    }

    [Fact]
    public void WorkFor_Raised_AsksForASecondLook_AndConfirmed_ForTheCause()
    {
        var flag = new FlagKey(ParameterCodes.Ph, Verdict.Warning, Direction.Low);

        Assert.Equal([TaskKind.Test], new SuddenChangeRule().WorkFor(flag, isConfirmed: false));
        Assert.Equal([TaskKind.Inspect], new SuddenChangeRule().WorkFor(flag, isConfirmed: true));
    }

    private static Charge Read(decimal[] values, string parameter = ParameterCodes.Ph) => new Charge(new SuddenChangeRule()).Reads(parameter, values);
}
