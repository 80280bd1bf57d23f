using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.MassBalance;
using ShopFluids.Rules.Tests.Course;

namespace ShopFluids.Rules.Tests.MassBalance;

/// <summary>
/// A charge that holds more than the record explains. The sump holds 1 L for each mm: 250 L at 8 %, full mark 300 L, so gains up to 9 L are left alone;
/// two readings of level are good for 5.7 L together.
/// </summary>
public sealed class BalanceRuleTests
{
    private readonly Charge _charge = new(new BalanceRule());

    [Fact]
    public void Check_OrdinaryWeek_Closes()
    {
        Visit(250, 8.0m);
        Visit(235, 8.3m);

        Assert.Equal((null, 0), (_charge.Open, _charge.Raised));
    }

    // 25 L of water: 275 L that hold the same 20 L of concentrate.
    [Fact]
    public void Check_WaterThatNobodyRecorded_IsFlagged()
    {
        Visit(250, 8.0m);
        Visit(280, 7.1m);

        var flag = Assert.IsType<OpenFlag>(_charge.Open);
        Assert.Equal((BalanceRule.RuleCode, "", Verdict.Warning, Direction.High), (flag.Rule, flag.Parameter, flag.Severity, flag.Direction));
        Assert.Equal((7.0m, 0m), (flag.Numbers[NumberNames.Days], flag.Numbers[NumberNames.GainedConcentrate]));
        Assert.InRange(flag.Numbers[NumberNames.GainedLitres], 28, 33);
        Assert.InRange(flag.Numbers[NumberNames.GainUncertainty], 6, 14);
    }

    [Fact]
    public void Check_SameWaterRecorded_Closes()
    {
        Visit(250, 8.0m, afterwards: () => _charge.Moves(water: 30));
        Visit(280, 7.1m);

        Assert.Null(_charge.Open);
    }

    [Fact]
    public void Check_ConcentrateThatNobodyRecorded_IsFlaggedOnItsSide()
    {
        Visit(250, 8.0m);
        Visit(250, 10.0m);

        var flag = Assert.IsType<OpenFlag>(_charge.Open);
        Assert.Equal(Direction.Low, flag.Direction);
        Assert.InRange(flag.Numbers[NumberNames.GainedConcentrate], 4.9m, 5.1m);
    }

    [Fact]
    public void Check_MixThatNobodyRecorded_HasNoSide()
    {
        _charge.Numbers[BalanceRule.LeastPercent] = 0;
        Visit(200, 4.0m);
        _charge.Reads(Some.Measured(ParameterCodes.Level, 390), new MeasurementFacts(ParameterCodes.Concentration, "", 4.0m, 0.2m));

        // All of it may be mix that was poured in: concentrate came with it, and no water alone.
        Assert.Equal(Direction.Low, _charge.Open?.Direction);
    }

    // 200 L at 4 % become 390 L at 3 %: some of the 190 L may be carry-off the other way round, some evaporation, and all of it is mix.
    [Fact]
    public void Check_WaterAndMixTogether_TellsAllThatWasGained()
    {
        Visit(200, 4.0m);
        Visit(390, 3.0m);

        Assert.Equal((Direction.None, 190.0m), (_charge.Open?.Direction, _charge.Open?.Numbers[NumberNames.GainedLitres]));
        Assert.InRange(_charge.Open?.Numbers[NumberNames.GainUncertainty] ?? 0, 5, 7);
    }

    // The plain middle of 0.02 and 0 % is not too little to go by, but over the time it is: 100 L became 390 L.
    [Fact]
    public void Check_NextToNoConcentrate_HasNoOpinion()
    {
        Visit(100, 0.02m);

        Assert.Empty(_charge.Reads(Some.Measured(ParameterCodes.Level, 390), Some.Measured(ParameterCodes.Concentration, 0)));
    }

    [Theory]
    [InlineData(262, false)]
    [InlineData(275, true)]
    public void Check_GainNearTheUncertainty_IsLeftAlone(int level, bool isFlagged)
    {
        Visit(250, 8.0m);
        Visit(level, decimal.Round(8.0m * 250 / level, 2));

        Assert.Equal(isFlagged, _charge.Open is not null);
    }

    [Fact]
    public void Check_NextIntervalCloses_Clears()
    {
        Visit(250, 8.0m);
        Visit(280, 7.1m);
        Assert.NotNull(_charge.Open);
        Visit(270, 7.3m);

        Assert.Null(_charge.Open);
    }

    [Fact]
    public void Check_LevelOrConcentrationMissing_LeavesTheFlag()
    {
        Visit(250, 8.0m);
        Visit(280, 7.1m);
        _charge.Reads(Some.Measured(ParameterCodes.Level, 270));
        _charge.After(1).Reads(Some.Measured(ParameterCodes.Concentration, 7.3m));

        Assert.NotNull(_charge.Open);
    }

    [Theory]
    [InlineData(21, true)]
    [InlineData(22, false)]
    public void Check_ReadingsFarApart_AreNotCompared(int days, bool isFlagged)
    {
        _charge.Reads(Some.Measured(ParameterCodes.Level, 250), Some.Measured(ParameterCodes.Concentration, 8));
        _charge.After(days).Reads(Some.Measured(ParameterCodes.Level, 280), Some.Measured(ParameterCodes.Concentration, 7.1m));

        Assert.Equal(isFlagged, _charge.Open is not null);
    }

    [Theory]
    [InlineData(TopUpHabit.ByRecipe)]
    [InlineData(TopUpHabit.SamePremix)]
    [InlineData(TopUpHabit.AnyDay)]
    [InlineData(TopUpHabit.Monthly)]
    public void Check_AYearOfAHealthySump_IsSeldomFlagged(TopUpHabit habit)
    {
        var raised = 0;
        for (var seed = 0; seed < 200; seed++)
        {
            var charge = new Charge(new BalanceRule());
            new HealthySump(seed, habit).Run(charge, weeks: 52);
            raised += charge.Raised;
        }

        Assert.True(raised / (12.0 * 200) < 0.01, $"{raised} flags in 200 years");
    }

    private void Visit(decimal level, decimal percent, Action? afterwards = null)
    {
        _charge.Reads(Some.Measured(ParameterCodes.Level, level), Some.Measured(ParameterCodes.Concentration, percent));
        _charge.After(0.01);
        afterwards?.Invoke();
        _charge.After(6.99);
    }
}
