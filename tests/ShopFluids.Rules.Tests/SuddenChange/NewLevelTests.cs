using ShopFluids.Rules.Advice;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Shipped;
using ShopFluids.Rules.SuddenChange;
using ShopFluids.Rules.Tests.Course;

namespace ShopFluids.Rules.Tests.SuddenChange;

/// <summary>How a flag for a sudden change ends.</summary>
public sealed class NewLevelTests
{
    private static readonly decimal[] Steady = [9.0m, 9.1m, 9.0m, 9.1m, 9.0m, 9.1m, 9.0m, 9.1m, 9.0m];

    // From 9.0 to 8.4: half of the way back is 8.7.
    [Theory]
    [InlineData("8.4", true)]
    [InlineData("8.7", true)]
    [InlineData("8.71", false)]
    [InlineData("9.0", false)]
    public void Check_NextReading_EndsTheFlagWhenMoreThanHalfWayBack(string next, bool stays)
    {
        var charge = Jumped();

        charge.Reads(ParameterCodes.Ph, decimal.Parse(next, System.Globalization.CultureInfo.InvariantCulture));

        Assert.Equal(stays, charge.Open is not null);
    }

    [Fact]
    public void Check_FoundAgainOnThreeLaterDays_IsTheUsualValue()
    {
        var charge = Jumped().Reads(ParameterCodes.Ph, 8.4m, 8.5m);
        Assert.NotNull(charge.Open);

        charge.Reads(ParameterCodes.Ph, 8.4m);

        Assert.Null(charge.Open);
        Assert.Null(Assert.Single(charge.Reads(Some.Measured(ParameterCodes.Ph, 8.5m))).Flag);
    }

    [Fact]
    public void Check_FoundAgainOnTheSameDay_DoesNotCountAsADay()
    {
        var charge = Jumped();
        charge.After(-7);
        for (var retest = 0; retest < 5; retest++)
        {
            charge.After(0.04).Reads(Some.Measured(ParameterCodes.Ph, 8.4m));
        }

        Assert.NotNull(charge.Open);
    }

    [Fact]
    public void Check_SettlingTuned_IsUsed()
    {
        var charge = Jumped();
        charge.Numbers[SuddenChangeRule.SettlesAfterDays] = 1;

        Assert.Null(charge.Reads(ParameterCodes.Ph, 8.4m).Open);
    }

    [Fact]
    public void Check_BeyondOnTheOtherSide_IsAnotherFlag()
    {
        var charge = Jumped();

        var flag = Assert.Single(charge.Reads(Some.Measured(ParameterCodes.Ph, 9.6m))).Flag;

        Assert.Equal(Direction.High, flag?.Direction);
    }

    // On the way back from a wrong reading the one before it has to say the same by the whole limit: 9.3 is within 0.3267 of 9.0, 9.36 is not.
    [Theory]
    [InlineData("9.3", false)]
    [InlineData("9.36", true)]
    public void Check_BackBeyondWhatItWas_IsAnotherFlagBeyondTheLimit(string next, bool isAnother)
    {
        var charge = Jumped();

        charge.Reads(ParameterCodes.Ph, decimal.Parse(next, System.Globalization.CultureInfo.InvariantCulture));

        Assert.Equal(isAnother ? Direction.High : null, charge.Open?.Direction);
    }

    // From 8.4 by the limit of 0.327 is a second look at it; by more it is another finding.
    [Theory]
    [InlineData("8.08", 1)]
    [InlineData("8.07", 2)]
    [InlineData("7.5", 2)]
    public void Check_FurtherOnTheSameSide_IsAnotherFlagBeyondTheLimit(string next, int raised)
    {
        var charge = Jumped();

        charge.Reads(ParameterCodes.Ph, decimal.Parse(next, System.Globalization.CultureInfo.InvariantCulture));

        Assert.Equal(raised, charge.Raised);
        Assert.NotNull(charge.Open);
    }

    [Fact]
    public void Check_FallsOnAndOn_IsNeverTheUsualValue()
    {
        var charge = Jumped().Reads(ParameterCodes.Ph, 8.0m, 7.6m, 7.2m);

        Assert.Equal((7.2m, 4), (charge.Open?.Numbers[NumberNames.Value], charge.Raised));
    }

    // Each step is within the limit, so it is the same flag; it ends when what it is now was found on three days.
    [Fact]
    public void Check_CreepsOn_SettlesWhereItStays()
    {
        var charge = Jumped().Reads(ParameterCodes.Ph, 8.15m, 7.9m, 7.6m);
        Assert.Equal(1, charge.Raised);
        Assert.NotNull(charge.Open);

        Assert.Null(charge.Reads(ParameterCodes.Ph, 7.6m).Open);
    }

    // The flagged reading is found again although another one comes to stand before it.
    [Fact]
    public void Check_ReadingComesLateBeforeTheFlaggedOne_LeavesTheFlag()
    {
        var charge = Jumped();
        charge.Slips(daysAgo: 10, Some.Measured(ParameterCodes.Ph, 9.1m));

        Assert.NotNull(charge.Reads(ParameterCodes.Ph, 8.4m).Open);
    }

    // Raised before flags had a moment: found by its two values.
    [Fact]
    public void Check_FlagWithoutAMoment_IsFoundByItsValues()
    {
        var charge = new Charge(new SuddenChangeRule()).Reads(ParameterCodes.Ph, [.. Steady, 8.4m]);
        charge.Forgets(NumberNames.TakenAt);

        Assert.NotNull(charge.Reads(ParameterCodes.Ph, 8.4m).Open);
    }

    [Fact]
    public void Check_FlaggedReadingIsGone_EndsTheFlag()
    {
        var charge = new Charge(new SuddenChangeRule()).Reads(ParameterCodes.Ph, Steady);
        charge.Others.Add(Some.Flag(SuddenChangeRule.RuleCode, ParameterCodes.Ph, Verdict.Warning, Direction.Low));

        Assert.Null(Assert.Single(charge.Reads(Some.Measured(ParameterCodes.Ph, 9.0m))).Flag);
    }

    [Fact]
    public void Check_TitrationAfterAFlaggedRefractometer_Decides()
    {
        Assert.NotNull(Titrated(7.9m).Open);
        Assert.Null(Titrated(6.2m).Open);

        static Charge Titrated(decimal percent)
        {
            var charge = new Charge(new SuddenChangeRule());
            foreach (var value in new[] { 6.0m, 6.1m, 6.0m, 6.1m, 6.0m, 6.1m, 6.0m, 6.1m, 6.0m, 8.0m })
            {
                charge.Reads(Some.Measured(ParameterCodes.Concentration, value, MethodCodes.Refractometer));
                charge.After(7);
            }

            Assert.NotNull(charge.Open);
            charge.After(-6.9).Reads(Some.Measured(ParameterCodes.Concentration, percent, MethodCodes.Titration));
            return charge;
        }
    }

    // Both methods at once: the flagged value is followed by the one that found it.
    [Fact]
    public void Check_BothMethodsAfterAFlaggedRefractometer_ItIsFollowedByItsOwn()
    {
        var charge = new Charge(new SuddenChangeRule());
        foreach (var value in new[] { 6.0m, 6.1m, 6.0m, 6.1m, 6.0m, 6.1m, 6.0m, 6.1m, 6.0m, 8.0m })
        {
            charge.Reads(Some.Measured(ParameterCodes.Concentration, value, MethodCodes.Refractometer));
            charge.After(7);
        }

        charge.Reads(Some.Measured(ParameterCodes.Concentration, 6.0m, MethodCodes.Titration), Some.Measured(ParameterCodes.Concentration, 7.9m, MethodCodes.Refractometer));

        Assert.NotNull(charge.Open);
    }

    // 4.0 % of 200 L, thinned to 2.7 % of 300 L, are what they were: found on three later days, it is the usual value.
    [Fact]
    public void Check_ThinnedMeanwhile_IsTheSameValue()
    {
        var charge = new Charge(new SuddenChangeRule());
        foreach (var percent in new[] { 6.0m, 6.1m, 6.0m, 6.1m, 6.0m, 6.1m, 6.0m, 6.1m, 6.0m, 4.0m, 4.0m })
        {
            Read(percent, 200);
        }

        Assert.NotNull(charge.Open);
        charge.After(-6).Moves(water: 100).After(6);
        Read(2.7m, 300);
        Assert.NotNull(charge.Open);
        Read(2.7m, 300);
        Assert.Null(charge.Open);

        void Read(decimal percent, int level)
        {
            charge.Reads(Some.Measured(ParameterCodes.Concentration, percent), Some.Measured(ParameterCodes.Level, level));
            charge.After(7);
        }
    }

    /// <summary>The whole way through the service: a second test, then the cause, then nothing.</summary>
    [Fact]
    public void Evaluate_Jump_AsksForATestThenForTheCause()
    {
        var sump = new Simulator([CommonPractice.Ph.Limits], [], Some.Calendar());
        var cause = CorrectiveWork.CauseOf(SuddenChangeRule.RuleCode, ParameterCodes.Ph);
        decimal[] values = [.. Steady, 9.45m, 9.4m, 9.4m, 9.4m];
        var evaluations = values.Select((v, i) => sump.Apply(new(Some.Id(i), Some.Now.AddDays(7 * i), [Some.Measured(ParameterCodes.Ph, v)]))).ToList();

        Assert.All(evaluations[..9], e => Assert.Empty(e.Raised));
        Assert.Equal((TaskKind.Test, cause), Assert.Single(evaluations[9].NewTasks.Select(t => (t.Kind, t.Cause))));
        Assert.Single(evaluations[10].DoneTasks);
        Assert.Equal((TaskKind.Inspect, cause), Assert.Single(evaluations[10].NewTasks.Select(t => (t.Kind, t.Cause))));
        Assert.Empty(evaluations[11].Cleared);
        Assert.Single(evaluations[12].Cleared);
        Assert.Empty(sump.Flags);
    }

    private static Charge Jumped()
    {
        var charge = new Charge(new SuddenChangeRule()).Reads(ParameterCodes.Ph, Steady).Reads(ParameterCodes.Ph, 8.4m);
        Assert.Equal(Direction.Low, charge.Open?.Direction);
        return charge;
    }
}
