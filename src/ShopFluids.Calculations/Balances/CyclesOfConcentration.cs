namespace ShopFluids.Calculations.Balances;

/// <summary>
/// The mass balance of evaporating water in its cooling-tower form: M = E + B + D and C = M / (B + D), with make-up M, evaporation E, drift
/// (carry-off) D and blowdown (drained on purpose) B, all in one unit of flow. Source: DOE/FEMP Best Management Practice 10 (read).
/// </summary>
public static class CyclesOfConcentration
{
    private const double MostFlow = 1e12;

    /// <summary>C = (E + B + D)/(B + D).</summary>
    /// <param name="evaporation">E, 0 to 10¹².</param>
    /// <param name="drift">D, 0 to 10¹².</param>
    /// <param name="blowdown">B, 0 to 10¹², with D together 10⁻⁶ or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static double Of(double evaporation, double drift, double blowdown)
    {
        Require.Between(evaporation, 0, MostFlow, "of flow");
        Require.Between(drift, 0, MostFlow, "of flow");
        Require.Between(blowdown, drift < 1e-6 ? 1e-6 : 0, MostFlow, "of flow");
        return (evaporation + blowdown + drift) / (blowdown + drift);
    }

    /// <summary>What has to be drained on purpose to hold C: B = E/(C − 1) − D.</summary>
    /// <param name="evaporation">E, 0 to 10¹².</param>
    /// <param name="drift">D, 0 to 10¹².</param>
    /// <param name="cycles">C, above 1 by 10⁻⁶ or more; up to 1 + E/D, where drift alone holds it.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static double Blowdown(double evaporation, double drift, double cycles)
    {
        Require.Between(evaporation, 0, MostFlow, "of flow");
        Require.Between(drift, 0, MostFlow, "of flow");
        Require.Between(cycles, 1.000001, 1e12, "cycles");
        var blowdown = (evaporation / (cycles - 1)) - drift;
        return blowdown >= 0
            ? blowdown
            : throw new ArgumentOutOfRangeException(nameof(cycles), cycles, "Accepted are cycles up to 1 + evaporation / drift, where drift alone holds them.");
    }

    /// <summary>The make-up that holds C: M = E + B + D = E C/(C − 1).</summary>
    /// <param name="evaporation">E, 0 to 10¹².</param>
    /// <param name="cycles">C, above 1 by 10⁻⁶ or more, up to 10¹².</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static double MakeUp(double evaporation, double cycles)
    {
        Require.Between(evaporation, 0, MostFlow, "of flow");
        Require.Between(cycles, 1.000001, 1e12, "cycles");
        return evaporation * cycles / (cycles - 1);
    }
}
