using ShopFluids.Rules.Drift;
using ShopFluids.Rules.Shipped;
using ShopFluids.Rules.Tests.Course;

namespace ShopFluids.Rules.Tests.Drift;

/// <summary>How often a sump with which nothing is wrong is flagged, and one that goes off is not.</summary>
public sealed class FalseAlarmTests
{
    private const int Sumps = 60;

    // Narrow limits are those that a healthy sump almost touches.
    [Theory]
    [InlineData(TopUpHabit.ByRecipe, 5.0, 7.0, 8.5)]
    [InlineData(TopUpHabit.SamePremix, 5.0, 7.0, 8.5)]
    [InlineData(TopUpHabit.AnyDay, 5.0, 7.0, 8.5)]
    [InlineData(TopUpHabit.Monthly, 5.0, 7.0, 8.5)]
    [InlineData(TopUpHabit.ByRecipe, 5.4, 6.6, 9.0)]
    [InlineData(TopUpHabit.SamePremix, 5.4, 6.6, 9.0)]
    public void Check_AYearOfAHealthySump_IsSeldomFlagged(TopUpHabit habit, double low, double high, double ph)
    {
        var raised = 0;
        for (var seed = 0; seed < Sumps; seed++)
        {
            var charge = new Charge(
                new DriftRule(),
                Some.Limits(warningLow: (decimal)low, warningHigh: (decimal)high, actionHigh: 9),
                CommonPractice.Ph.Limits with { WarningLow = (decimal)ph, WarningHigh = 9.5m });
            new HealthySump(seed, habit).Run(charge, weeks: 52);
            raised += charge.Raised;
        }

        Assert.True(raised / (12.0 * Sumps) < 0.03, $"{raised} flags in {Sumps} years");
    }

    [Theory]
    [InlineData(0.03, 1, ParameterCodes.Ph, 0.65)]
    [InlineData(0.05, 1, ParameterCodes.Ph, 0.8)]
    [InlineData(0.1, 1, ParameterCodes.Ph, 0.9)]
    [InlineData(0, 0, ParameterCodes.Concentration, 0.7)]
    public void Check_GoesOff_IsFlaggedAWeekOrMoreBeforeTheLimit(double phFall, double premix, string parameter, double leastShare)
    {
        var (seen, crossed) = (0, 0);
        for (var seed = 0; seed < Sumps; seed++)
        {
            var charge = new Charge(
                new DriftRule(),
                Some.Limits(warningLow: 5, warningHigh: 7, actionHigh: 9),
                CommonPractice.Ph.Limits with { WarningHigh = 9.7m });
            var sump = new HealthySump(seed, TopUpHabit.SamePremix);
            sump.Run(charge, weeks: 12);
            (sump.PhFall, sump.PremixFactor) = (phFall, premix);
            var first = -1;
            for (var week = 0; week < 60; week++)
            {
                sump.Run(charge, weeks: 1);
                first = first < 0 && charge.RaisedOf(parameter) > 0 ? week : first;
                if (sump.LastRead.Ph < 8.5m || sump.LastRead.Percent is < 5 or > 7)
                {
                    crossed++;
                    seen += first >= 0 && first < week ? 1 : 0;
                    break;
                }
            }
        }

        Assert.Equal(Sumps, crossed);
        Assert.True(seen >= leastShare * Sumps, $"{seen} of {Sumps}");
    }
}
