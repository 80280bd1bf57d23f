using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Microbial;
using ShopFluids.Rules.Registry;
using ShopFluids.Rules.Shipped;
using ShopFluids.Rules.Tests.Course;

namespace ShopFluids.Rules.Tests.Microbial;

/// <summary>What bacteria commonly do: pH that falls at a steady concentration with a smell, and slides that grow. From memory.</summary>
public sealed class MicrobialRuleTests
{
    private readonly Charge _charge = new(new MicrobialRule(), HseBacteria.For(BacteriaBands.Current).Limits);

    [Theory]
    [InlineData(8.8, 2, false)]
    [InlineData(8.7, 2, true)]
    [InlineData(8.7, 1, false)]
    [InlineData(8.5, 2, true)]
    [InlineData(9.3, 2, false)]
    public void Check_FallWithASmell_IsFlagged(double ph, int odour, bool isFlagged)
    {
        Usual();
        Visit((decimal)ph, odour);

        Assert.Equal(isFlagged, _charge.Open is not null);
    }

    [Fact]
    public void Check_Beyond_CarriesTheFallAndTheSmell()
    {
        Usual();
        Visit(8.6m, 2);

        var flag = Assert.IsType<OpenFlag>(_charge.Open);
        Assert.Equal((ParameterCodes.Ph, Verdict.Warning, Direction.Low), (flag.Parameter, flag.Severity, flag.Direction));
        Assert.Equal((8.6m, 9.0m, 2m), (flag.Numbers[NumberNames.Value], flag.Numbers[NumberNames.Usual], flag.Numbers[NumberNames.Odour]));
    }

    // What was not measured was not steady; it speaks against nothing either.
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Check_Beyond_TellsWhetherTheConcentrationWasSteady(bool isMeasured)
    {
        Usual();
        _charge.Reads([
            Some.Measured(ParameterCodes.Ph, 8.6m),
            Some.Measured(ParameterCodes.Odour, 2),
            .. isMeasured ? [Some.Measured(ParameterCodes.Concentration, 8.0m)] : Array.Empty<MeasurementFacts>(),
        ]);

        Assert.Equal(isMeasured, _charge.Open?.Numbers.ContainsKey(NumberNames.Steady));
    }

    [Fact]
    public void Check_FallInsideTheUncertainty_IsNone()
    {
        Usual();
        _charge.Reads(new MeasurementFacts(ParameterCodes.Ph, "", 8.6m, 0.5m), Some.Measured(ParameterCodes.Odour, 2));

        Assert.Null(_charge.Open);
    }

    // Water that got in lowers pH as well, and there the concentration falls with it.
    [Theory]
    [InlineData(6.9, true)]
    [InlineData(6.7, false)]
    [InlineData(9.3, false)]
    public void Check_ConcentrationNotSteady_IsNone(double percent, bool isFlagged)
    {
        Usual();
        Visit(8.6m, 2, (decimal)percent);

        Assert.Equal(isFlagged, _charge.Open is not null);
    }

    [Fact]
    public void Check_TooFewReadingsBefore_HasNoOpinion()
    {
        Visit(9.0m, 0);
        Visit(9.0m, 0);
        Visit(8.5m, 2);

        Assert.Equal((null, 0), (_charge.Open, _charge.Raised));
    }

    [Fact]
    public void Check_RottenEggLater_BecomesActionAndStays()
    {
        Usual();
        Visit(8.6m, 2);
        Visit(8.5m, 3);
        Assert.Equal((Verdict.Action, 2), (_charge.Open?.Severity, _charge.Raised));
        Visit(8.5m, 2);

        Assert.Equal((Verdict.Action, 2), (_charge.Open?.Severity, _charge.Raised));
    }

    [Theory]
    [InlineData(8.5, 1, true)]
    [InlineData(8.4, 1, false)]
    [InlineData(8.8, 2, false)]
    [InlineData(8.9, 2, true)]
    public void Check_SmellGoneAndSteadyOrPhBack_Clears(double ph, int odour, bool isCleared)
    {
        Usual();
        Visit(8.6m, 2);
        Visit((decimal)ph, odour);

        Assert.Equal(isCleared, _charge.Open is null);
    }

    [Theory]
    [InlineData(2.0, 3.0, false)]
    [InlineData(2.0, 3.4, false)]
    [InlineData(2.6, 3.5, false)]
    [InlineData(2.5, 3.5, true)]
    [InlineData(2.5, 4.0, false)]
    public void Check_SlideGrownByADecade_IsFlaggedWithinTheBand(double before, double now, bool isFlagged)
    {
        _charge.Reads(Some.Measured(ParameterCodes.Bacteria, (decimal)before));
        _charge.After(28).Reads(Some.Measured(ParameterCodes.Bacteria, (decimal)now));

        Assert.Equal(isFlagged, _charge.Open is not null);
    }

    [Fact]
    public void Check_SlideThatGrewNoMore_Clears()
    {
        _charge.Reads(Some.Measured(ParameterCodes.Bacteria, 2));
        _charge.After(28).Reads(Some.Measured(ParameterCodes.Bacteria, 3.5m));
        Assert.NotNull(_charge.Open);
        _charge.After(28).Reads(Some.Measured(ParameterCodes.Bacteria, 3.5m));

        Assert.Null(_charge.Open);
    }

    [Fact]
    public void Check_TunedFall_IsTaken()
    {
        _charge.Numbers[MicrobialRule.LeastFall] = 0.6m;
        Usual();
        Visit(8.5m, 2);

        Assert.Null(_charge.Open);
    }

    [Theory]
    [InlineData(Verdict.Warning, new[] { TaskKind.Skim, TaskKind.Circulate })]
    [InlineData(Verdict.Action, new[] { TaskKind.DrainClean })]
    public void WorkFor_EachSeverity_IsItsOwn(Verdict severity, TaskKind[] expected) =>
        Assert.Equal(expected, new MicrobialRule().WorkFor(new FlagKey(ParameterCodes.Ph, severity, Direction.Low), isConfirmed: false));

    [Fact]
    public void Check_YearsOfHealthySumps_AreNotFlagged()
    {
        var raised = 0;
        foreach (var habit in Enum.GetValues<TopUpHabit>())
        {
            for (var seed = 0; seed < 50; seed++)
            {
                var charge = new Charge(new MicrobialRule());
                charge.Reads(Some.Measured(ParameterCodes.Odour, 0));
                new HealthySump(seed, habit).Run(charge, weeks: 52);
                raised += charge.Raised;
            }
        }

        Assert.Equal(0, raised);
    }

    private void Usual()
    {
        for (var week = 0; week < 4; week++)
        {
            Visit(9.0m, 0);
        }
    }

    private void Visit(decimal ph, decimal odour, decimal percent = 8)
    {
        _charge.Reads(Some.Measured(ParameterCodes.Ph, ph), Some.Measured(ParameterCodes.Odour, odour), Some.Measured(ParameterCodes.Concentration, percent));
        _charge.After(7);
    }
}
