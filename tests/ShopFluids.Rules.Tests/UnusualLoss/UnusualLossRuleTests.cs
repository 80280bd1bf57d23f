using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Tests.Course;
using ShopFluids.Rules.UnusualLoss;

namespace ShopFluids.Rules.Tests.UnusualLoss;

/// <summary>
/// A sump that loses more than usual. It holds 1 L for each mm, 300 L at the full mark; every week it loses some 20 L and gets them back. 5 % a week
/// are 15 L; the spread of two levels good to 4 mm is 2.83 L, four of them 11.3 L.
/// </summary>
public sealed class UnusualLossRuleTests
{
    private readonly Charge _charge = new(new UnusualLossRule());

    [Theory]
    [InlineData(20, false)]
    [InlineData(35, false)]
    [InlineData(36, true)]
    [InlineData(80, true)]
    [InlineData(-40, false)]
    public void Check_LossOfAWeek_IsFlaggedBeyondTheUsual(int loss, bool isFlagged)
    {
        Weeks(7);
        Week(loss);

        Assert.Equal(isFlagged, _charge.Open is not null);
    }

    [Fact]
    public void Check_Beyond_CarriesWhatWasLostAndWhatIsUsual()
    {
        Weeks(7);
        Week(60);

        var flag = Assert.IsType<OpenFlag>(_charge.Open);
        Assert.Equal((UnusualLossRule.RuleCode, "", Verdict.Warning), (flag.Rule, flag.Parameter, flag.Severity));
        Assert.Equal((7m, 60m, 20m), (flag.Numbers[NumberNames.Days], flag.Numbers[NumberNames.LostLitres], flag.Numbers[NumberNames.UsualLitres]));
    }

    [Theory]
    [InlineData(6, false)]
    [InlineData(7, true)]
    public void Check_TooFewWeeksBefore_HasNoOpinion(int readings, bool isFlagged)
    {
        Weeks(readings);
        Week(80);

        Assert.Equal(isFlagged, _charge.Open is not null);
    }

    // One wild week among many leaves the usual rate and its spread as they are.
    [Fact]
    public void Check_WildWeekBefore_DoesNotHideTheNext()
    {
        Weeks(7);
        Week(90);
        Weeks(3);
        Assert.Null(_charge.Open);
        Week(40);

        Assert.NotNull(_charge.Open);
    }

    [Theory]
    [InlineData(27, true)]
    [InlineData(28, false)]
    public void Check_HalfOfTheWayBack_Clears(int loss, bool isCleared)
    {
        Weeks(7);
        Week(80);
        Week(loss);

        Assert.Equal(isCleared, _charge.Open is null);
    }

    [Fact]
    public void Check_LevelNotRead_LeavesTheFlag()
    {
        Weeks(7);
        Week(80);
        _charge.Reads(Some.Measured(ParameterCodes.Ph, 9));

        Assert.NotNull(_charge.Open);
    }

    [Fact]
    public void Check_SecondLookWithinTheDay_IsNoInterval()
    {
        Weeks(7);
        _charge.After(-6.5).Reads(Some.Measured(ParameterCodes.Level, 200));

        Assert.Null(_charge.Open);
    }

    [Fact]
    public void Check_TunedShare_IsTaken()
    {
        _charge.Numbers[UnusualLossRule.LeastPercentPerWeek] = 20;
        Weeks(7);
        Week(75);
        Assert.Null(_charge.Open);
        Week(85);

        Assert.NotNull(_charge.Open);
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
            var charge = new Charge(new UnusualLossRule());
            new HealthySump(seed, habit).Run(charge, weeks: 52);
            raised += charge.Raised;
        }

        Assert.True(raised / (12.0 * 200) < 0.01, $"{raised} flags in 200 years");
    }

    private void Weeks(int count)
    {
        for (var week = 0; week < count; week++)
        {
            Week(20);
        }
    }

    // Read before the loss of the week is made good.
    private void Week(int loss)
    {
        _charge.Reads(Some.Measured(ParameterCodes.Level, 300 - loss));
        _charge.After(0.01).Moves(water: loss);
        _charge.After(6.99);
    }
}
