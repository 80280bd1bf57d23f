namespace ShopFluids.Calculations.Balances;

/// <summary>
/// Hardness and dissolved solids in a sump that is kept full. The make-up brings H_m, carry-off takes H away, evaporation takes nothing:
/// V dH/dt = (e + d) H_m − d H. So H(t) = H∞ − (H∞ − H₀) e^(−d t/V) with H∞ = H_m (e + d)/d, and without carry-off
/// H = H₀ + H_m e t/V. Same mass balance as cycles of concentration in a cooling tower (M = E + B + D: DOE/FEMP Best Management
/// Practice 10). What the concentrate itself brings counts as part of H_m.
/// </summary>
public static class Buildup
{
    /// <summary>H after some days, mg/L.</summary>
    /// <param name="makeUp">The sump.</param>
    /// <param name="makeUpMgPerLitre">H_m, 0 to 1 000 000 mg/L.</param>
    /// <param name="startMgPerLitre">H₀, 0 to 1 000 000 mg/L.</param>
    /// <param name="days">t, 0 to 1 000 000 days.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static double At(MakeUp makeUp, double makeUpMgPerLitre, double startMgPerLitre, double days)
    {
        ArgumentNullException.ThrowIfNull(makeUp);
        Require.Between(makeUpMgPerLitre, 0, Amounts.MostMgPerLitre, "mg/L");
        Require.Between(startMgPerLitre, 0, Amounts.MostMgPerLitre, "mg/L");
        Require.Between(days, 0, Amounts.MostDays, "days");
        var gone = makeUp.CarryOffLitresPerDay * days / makeUp.VolumeLitres;
        var brought = makeUpMgPerLitre * makeUp.LitresPerDay * days / makeUp.VolumeLitres;
        return (startMgPerLitre * Math.Exp(-gone)) + (brought * SmallSteps.Decayed(gone));
    }

    /// <summary>H∞, what it comes to in the end, mg/L; null where it grows without end.</summary>
    /// <param name="makeUp">The sump.</param>
    /// <param name="makeUpMgPerLitre">H_m, 0 to 1 000 000 mg/L.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="makeUpMgPerLitre"/> is out of range.</exception>
    public static double? SteadyStateMgPerLitre(MakeUp makeUp, double makeUpMgPerLitre)
    {
        ArgumentNullException.ThrowIfNull(makeUp);
        Require.Between(makeUpMgPerLitre, 0, Amounts.MostMgPerLitre, "mg/L");
        return makeUpMgPerLitre * makeUp.CyclesOfConcentration;
    }

    /// <summary>
    /// Sump volumes of make-up until a share of the way to the steady state is gone: C ln(1/(1 − share)); null without a steady state.
    /// </summary>
    /// <param name="makeUp">The sump.</param>
    /// <param name="share">0 to 0.999999; 0.95 is what is commonly called reached.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="share"/> is out of range.</exception>
    public static double? TurnoversToReach(MakeUp makeUp, double share = 0.95)
    {
        ArgumentNullException.ThrowIfNull(makeUp);
        Require.Between(share, 0, 0.999999, "of the way");
        return makeUp.CyclesOfConcentration * (share * SmallSteps.LogOver(share));
    }

    /// <summary>Days until H reaches a limit; 0 where it is there already, null where it never will within 1 000 000 days.</summary>
    /// <param name="makeUp">The sump.</param>
    /// <param name="makeUpMgPerLitre">H_m, 0 to 1 000 000 mg/L.</param>
    /// <param name="startMgPerLitre">H₀, 0 to 1 000 000 mg/L.</param>
    /// <param name="limitMgPerLitre">0 to 1 000 000 mg/L.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static double? DaysToLimit(MakeUp makeUp, double makeUpMgPerLitre, double startMgPerLitre, double limitMgPerLitre)
    {
        ArgumentNullException.ThrowIfNull(makeUp);
        Require.Between(makeUpMgPerLitre, 0, Amounts.MostMgPerLitre, "mg/L");
        Require.Between(startMgPerLitre, 0, Amounts.MostMgPerLitre, "mg/L");
        Require.Between(limitMgPerLitre, 0, Amounts.MostMgPerLitre, "mg/L");
        if (startMgPerLitre >= limitMgPerLitre)
        {
            return 0;
        }

        // mg/L times litres a day by which H grows at the start; the share of H∞ − H₀ that the limit asks for is missing d / growth.
        var growth = (makeUpMgPerLitre * makeUp.LitresPerDay) - (startMgPerLitre * makeUp.CarryOffLitresPerDay);
        var missing = limitMgPerLitre - startMgPerLitre;
        var share = missing * makeUp.CarryOffLitresPerDay / growth;
        if (!(growth > 0) || !(share < 1))
        {
            return null;
        }

        var days = makeUp.VolumeLitres * missing / growth * SmallSteps.LogOver(share);
        return days <= Amounts.MostDays ? days : null;
    }

    /// <summary>
    /// The hardest make-up water with which H stays at or under a limit: for good, (d/(e + d)) × limit; or until some day,
    /// (limit − H₀ q)/(H(t) per mg/L of make-up), q = e^(−d t/V). Infinity is never answered: at most 1 000 000 mg/L, and 0 where even pure
    /// water would not do.
    /// </summary>
    /// <param name="makeUp">The sump.</param>
    /// <param name="startMgPerLitre">H₀, 0 to the limit, mg/L.</param>
    /// <param name="limitMgPerLitre">Above 0 to 1 000 000 mg/L.</param>
    /// <param name="days">How long it has to hold, above 0 to 1 000 000 days; null: for good.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static double HardestMakeUpMgPerLitre(MakeUp makeUp, double startMgPerLitre, double limitMgPerLitre, double? days = null)
    {
        ArgumentNullException.ThrowIfNull(makeUp);
        Require.Positive(limitMgPerLitre, Amounts.MostMgPerLitre, "mg/L");
        Require.Between(startMgPerLitre, 0, limitMgPerLitre, "mg/L (the limit)");
        if (days is not { } time)
        {
            return makeUp.CyclesOfConcentration is { } cycles ? limitMgPerLitre / cycles : makeUp.LitresPerDay > 0 ? 0 : Amounts.MostMgPerLitre;
        }

        Require.Positive(time, Amounts.MostDays, "days", nameof(days));
        var allowed = limitMgPerLitre - At(makeUp, 0, startMgPerLitre, time);
        var perMgPerLitre = At(makeUp, 1, 0, time);
        return allowed < Amounts.MostMgPerLitre * perMgPerLitre ? allowed / perMgPerLitre : Amounts.MostMgPerLitre;
    }
}
