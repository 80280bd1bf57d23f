using ShopFluids.Calculations.Balances;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.MassBalance;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Core.Sumps.Losses;

/// <summary>Where the fluid of the charge in a sump goes, and what that does to its hardness.</summary>
/// <param name="WeeklyHours">Running hours a week that the losses per hour are reckoned with; 0 where none are set up.</param>
public sealed record SumpLosses(ChargeLosses Losses, decimal WeeklyHours, HardnessOutlook Hardness)
{
    private const double DaysAWeek = 7;

    public static SumpLosses Of(ShopSetup setup, Sump sump, Charge charge, ChargeHistory history, StandingFacts? standing, DateTime nowUtc)
    {
        ArgumentNullException.ThrowIfNull(setup);
        ArgumentNullException.ThrowIfNull(sump);
        ArgumentNullException.ThrowIfNull(charge);
        var hours = setup.WeeklyHoursOf(sump.Id);
        var poured = TunedRule.Of(new BalanceRule(), setup.TuningsFor(sump.Id, charge.FluidId).ByRule).Number(BalanceRule.PouredWithinPercent);
        var facts = ShopSetup.FactsOf(sump);
        var losses = ChargeLosses.Over(history, facts, (double)poured, hours > 0 ? (double)hours / DaysAWeek : null);
        return new(losses, hours, HardnessOutlook.Of(
            losses.Balance,
            facts.Geometry.VolumeLitresAt(facts.FullMarkMm),
            setup.Water(sump)?.HardnessMgPerLitre,
            standing?.Latest.GetValueOrDefault(ParameterCodes.Hardness),
            setup.LimitsAt(sump.Id, charge.FluidId, nowUtc).ValueLimits(ParameterCodes.Hardness),
            charge.FilledAtUtc,
            nowUtc));
    }
}

/// <summary>Why nothing can be said of how hardness builds up.</summary>
public enum HardnessGap
{
    None = 0,

    /// <summary>The hardness of the make-up water is not set up.</summary>
    NoWater = 1,

    /// <summary>Evaporation and carry-off are not known.</summary>
    NoLosses = 2,

    /// <summary>The balance does not close.</summary>
    BadBalance = 3,
}

/// <summary>How hardness builds up in a sump that is topped up with the same water as it loses, see <see cref="Buildup"/>.</summary>
/// <param name="WaterMgPerLitre">Of the make-up water.</param>
/// <param name="Measured">The last measured value; null where the outlook begins with the water of the fill.</param>
/// <param name="NowMgPerLitre">Worked out for now.</param>
/// <param name="EndMgPerLitre">What it comes to in the end; null where it grows without end.</param>
/// <param name="LimitMgPerLitre">The lowest upper limit in force; null where there is none.</param>
/// <param name="DaysToLimit">0 where it is there already; null where it never comes to it, or there is no limit.</param>
public sealed record HardnessOutlook(
    HardnessGap Gap, double WaterMgPerLitre = 0, LatestValue? Measured = null, double NowMgPerLitre = 0, double? EndMgPerLitre = null, double? LimitMgPerLitre = null, double? DaysToLimit = null)
{
    public static HardnessOutlook Of(
        ChargeBalance? balance, double volumeLitres, decimal? waterMgPerLitre, LatestValue? measured, ParameterLimits? limits, DateTime filledAtUtc, DateTime nowUtc)
    {
        if (waterMgPerLitre is not { } water)
        {
            return new(HardnessGap.NoWater);
        }

        if (balance is null)
        {
            return new(HardnessGap.NoLosses);
        }

        if (balance.Finding.Fault != BalanceFault.None)
        {
            return new(HardnessGap.BadBalance);
        }

        // A loss that comes out below 0 within its uncertainty is none.
        var rates = balance.PerDay;
        var makeUp = new MakeUp(volumeLitres, Math.Max(0, rates.Evaporation.Value), Math.Max(0, rates.CarryOff.Value));
        var (start, since) = measured is { } known ? ((double)known.Value, known.TakenAt) : ((double)water, filledAtUtc);
        var now = Buildup.At(makeUp, (double)water, start, Math.Max(0, (nowUtc - since).TotalDays));
        var limit = (double?)(limits?.WarningHigh ?? limits?.ActionHigh);
        return new(
            HardnessGap.None,
            (double)water,
            measured,
            now,
            makeUp.LitresPerDay > 0 ? Buildup.SteadyStateMgPerLitre(makeUp, (double)water) : start,
            limit,
            limit is { } most ? Buildup.DaysToLimit(makeUp, (double)water, now, most) : null);
    }
}
