using ShopFluids.Calculations.Uncertainties;

namespace ShopFluids.Calculations.Balances;

/// <summary>
/// What a sump will hold if nobody touches it and it goes on losing as it did. With l = e + d lost per day, of which e evaporates:
/// V(t) = V₀ − l t and, from dP/dt = −d P/V for the concentrate P, c(t) = c₀ (V₀/V)^(e/l); for l = 0, c(t) = c₀ exp(e t/V₀). Mass balance.
/// Uncertainty by JCGM 100, first order, from V₀, c₀, l and e taken as independent: the levels fix l, the concentrations e.
/// </summary>
public static class Outlook
{
    /// <summary>The farthest that is looked ahead, days.</summary>
    public const double MostDays = 3_650;

    private const double LeastLitres = 0.1;

    /// <summary>Volume and concentration after some days.</summary>
    /// <param name="now">The last reading, with 0.1 L or more.</param>
    /// <param name="perDay">Losses per day; <see cref="LossRates.CarryOff"/> is not used, it is the rest.</param>
    /// <param name="days">0 to 3 650 days, before the sump is empty, all concentrate or beyond 1 000 000 L.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static ExpectedSump At(SumpReading now, LossRates perDay, double days)
    {
        Check(now, perDay);
        Require.Between(days, 0, MostDays, "days");
        var expected = Expected(now, perDay, days);
        if (expected is null)
        {
            throw new ArgumentOutOfRangeException(nameof(days), days, "Accepted are days before the sump is empty, holds nothing but concentrate or more than 1 000 000 L.");
        }

        return expected;
    }

    /// <summary>When somebody has to top up.</summary>
    /// <param name="now">The last reading, with 0.1 L or more.</param>
    /// <param name="perDay">Losses per day, as for <see cref="At"/>.</param>
    /// <param name="refillLitres">The volume at which it is topped up, above 0 to 1 000 000 L.</param>
    /// <param name="lowPercent">The lowest concentration allowed, 0 to 100 % v/v.</param>
    /// <param name="highPercent">The highest, <paramref name="lowPercent"/> to 100 % v/v.</param>
    /// <param name="horizonDays">How far to look, above 0 to 3 650 days.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static TopUpDue NextTopUp(SumpReading now, LossRates perDay, double refillLitres, double lowPercent, double highPercent, double horizonDays = 365)
    {
        Check(now, perDay);
        Require.Positive(refillLitres, Amounts.MostLitres, "L");
        Require.Between(lowPercent, 0, 100, "% v/v");
        Require.Between(highPercent, lowPercent, 100, "% v/v (from the lowest)");
        Require.Positive(horizonDays, MostDays, "days");
        var (lost, volume) = (perDay.VolumeLost.Value, now.VolumeLitres.Value);
        var (evaporation, percent) = (perDay.Evaporation.Value, now.ConcentrationPercent.Value);
        var level = volume <= refillLitres ? 0 : lost > 0 ? (volume - refillLitres) / lost : double.PositiveInfinity;
        var high = percent > highPercent ? 0 : evaporation > 0 ? DaysToPercent(now, perDay, highPercent) : double.PositiveInfinity;
        var low = percent < lowPercent ? 0 : evaporation < 0 ? DaysToPercent(now, perDay, lowPercent) : double.PositiveInfinity;
        var days = Math.Min(level, Math.Min(high, low));
        if (!(days <= horizonDays) || Expected(now, perDay, days) is not { } then)
        {
            return new(null, TopUpReason.NoneInSight);
        }

        var reason = days == level ? TopUpReason.LevelLow : days == high ? TopUpReason.ConcentrationHigh : TopUpReason.ConcentrationLow;
        var (doubt, speed) = reason is TopUpReason.LevelLow
            ? (then.VolumeLitres.ExpandedUncertainty, lost)
            : (then.ConcentrationPercent.ExpandedUncertainty, then.ConcentrationPercent.Value * evaporation / then.VolumeLitres.Value);
        return new(new(days, days == 0 ? 0 : Math.Min(horizonDays, doubt / Math.Abs(speed))), reason);
    }

    private static void Check(SumpReading now, LossRates perDay)
    {
        ArgumentNullException.ThrowIfNull(now);
        ArgumentNullException.ThrowIfNull(perDay);
        Require.Between(now.VolumeLitres.Value, LeastLitres, Amounts.MostLitres, "L", nameof(now));
    }

    // Null where the sump would be empty, hold nothing but concentrate or run over every measure.
    private static ExpectedSump? Expected(SumpReading now, LossRates perDay, double days)
    {
        var (lost, volume) = (perDay.VolumeLost, now.VolumeLitres);
        var (evaporation, percent) = (perDay.Evaporation, now.ConcentrationPercent);
        var share = lost.Value * days / volume.Value;
        var left = volume.Value * (1 - share);
        var logOver = SmallSteps.LogOver(share);
        var factor = Math.Exp(evaporation.Value * days / volume.Value * logOver);
        var grown = percent.Value * factor;
        if (!(left > 0) || !(grown <= 100) || left > Amounts.MostLitres)
        {
            return null;
        }

        var litres = Gum.Propagate(left, (1, volume.StandardUncertainty), (-days, lost.StandardUncertainty));
        var strength = Gum.Propagate(
            grown,
            (factor, percent.StandardUncertainty),
            (grown * days / volume.Value * logOver, evaporation.StandardUncertainty),
            (-grown * evaporation.Value * days / (volume.Value * left), volume.StandardUncertainty),
            (grown * evaporation.Value * SlopeInLost(share, logOver, days, volume.Value), lost.StandardUncertainty));
        return new(litres, strength);
    }

    // ∂/∂l of −ln(1 − l t/V₀)/l; by its series t²/V₀² (1/2 + 2x/3 + 3x²/4) where the difference would lose its digits.
    private static double SlopeInLost(double share, double logOver, double days, double volume)
    {
        var scale = days * days / (volume * volume);
        return scale * (Math.Abs(share) < 1e-4 ? 0.5 + (share * ((2.0 / 3) + (0.75 * share))) : ((1 / (1 - share)) - logOver) / share);
    }

    // c₀ (V₀/V)^(e/l) = c solved for t = V₀ x / l, x = 1 − (c₀/c)^(l/e).
    private static double DaysToPercent(SumpReading now, LossRates perDay, double limit)
    {
        // 0 % is neither left nor reached: its logarithm is infinite, and so is the time or not a number.
        var logarithm = Math.Log(limit / now.ConcentrationPercent.Value);
        var exponent = logarithm * perDay.VolumeLost.Value / perDay.Evaporation.Value;
        var days = now.VolumeLitres.Value * logarithm / perDay.Evaporation.Value * SmallSteps.Decayed(exponent);
        return double.IsNaN(days) ? double.PositiveInfinity : days;
    }
}

/// <summary>What a sump is expected to hold.</summary>
/// <param name="VolumeLitres">V, L.</param>
/// <param name="ConcentrationPercent">c, % v/v.</param>
public sealed record ExpectedSump(Estimate VolumeLitres, Estimate ConcentrationPercent);

/// <summary>Why a sump has to be topped up.</summary>
public enum TopUpReason
{
    /// <summary>Nothing is due within the time looked at.</summary>
    NoneInSight = 0,

    /// <summary>The level falls to where it is topped up.</summary>
    LevelLow = 1,

    /// <summary>Evaporation makes the mix too strong.</summary>
    ConcentrationHigh = 2,

    /// <summary>Water coming in makes the mix too weak.</summary>
    ConcentrationLow = 3,
}

/// <summary>The next top-up.</summary>
/// <param name="Days">Days from the last reading, with an uncertainty of at most the time looked at; null where none is in sight.</param>
/// <param name="Reason">What makes it due.</param>
public sealed record TopUpDue(Estimate? Days, TopUpReason Reason);
