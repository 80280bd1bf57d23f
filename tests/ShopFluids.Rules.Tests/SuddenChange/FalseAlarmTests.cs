using ShopFluids.Rules.SuddenChange;
using ShopFluids.Rules.Tests.Course;

namespace ShopFluids.Rules.Tests.SuddenChange;

/// <summary>How often a sump with which nothing is wrong is flagged, and a jump is not.</summary>
public sealed class FalseAlarmTests
{
    private const int Sumps = 250;

    [Theory]
    [InlineData(TopUpHabit.ByRecipe)]
    [InlineData(TopUpHabit.SamePremix)]
    [InlineData(TopUpHabit.AnyDay)]
    [InlineData(TopUpHabit.Monthly)]
    public void Check_AYearOfAHealthySump_IsSeldomFlagged(TopUpHabit habit)
    {
        var raised = 0;
        for (var seed = 0; seed < Sumps; seed++)
        {
            var charge = new Charge(new SuddenChangeRule());
            new HealthySump(seed, habit).Run(charge, weeks: 52);
            raised += charge.Raised;
        }

        Assert.True(raised / (12.0 * Sumps) < 0.005, $"{raised} flags in {Sumps} years");
    }

    [Theory]
    [InlineData(1.5, 0)]
    [InlineData(-1.5, 0)]
    [InlineData(0, 0.4)]
    [InlineData(0, -0.4)]
    public void Check_Jump_IsFlaggedAtTheNextReading(double percent, double ph)
    {
        var seen = 0;
        for (var seed = 0; seed < Sumps; seed++)
        {
            var (charge, sump) = (new Charge(new SuddenChangeRule()), new HealthySump(seed, TopUpHabit.SamePremix));
            sump.Run(charge, weeks: 20);
            var before = charge.Raised;
            sump.Upset(percent, ph);
            sump.Run(charge, weeks: 1);
            seen += charge.Raised - before;
        }

        Assert.True(seen > 0.9 * Sumps, $"{seen} of {Sumps}");
    }
}
