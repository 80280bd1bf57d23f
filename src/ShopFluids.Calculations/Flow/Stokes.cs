namespace ShopFluids.Calculations.Flow;

/// <summary>Whether Stokes' law holds at the speed that it gives.</summary>
public enum StokesRange
{
    /// <summary>Reynolds number up to 0.1: within about 3 %.</summary>
    Holds = 0,

    /// <summary>Up to 1: the true speed is up to about 13 % less (Schiller and Naumann, from memory).</summary>
    Approximate = 1,

    /// <summary>Above 1: the law gives too much; the number is an upper bound only.</summary>
    TooFast = 2,
}

/// <summary>How fast a drop or grain rises or sinks.</summary>
/// <param name="MillimetresPerSecond">Upwards positive: a drop of oil rises, a grain of steel has a negative speed.</param>
/// <param name="Reynolds">Reynolds number at that speed.</param>
/// <param name="Range">Whether the law holds there.</param>
public sealed record StokesSpeed(double MillimetresPerSecond, double Reynolds, StokesRange Range)
{
    /// <summary>Time to cross a depth of still fluid, s; null where it does not move.</summary>
    /// <param name="depthMm">0 to 20 000 mm.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="depthMm"/> is out of its range.</exception>
    public double? SecondsOver(double depthMm)
    {
        Require.Between(depthMm, 0, 20_000, "mm");
        return MillimetresPerSecond == 0 ? null : depthMm / Math.Abs(MillimetresPerSecond);
    }
}

/// <summary>
/// Rise and settling by Stokes' law: v = g d² (ρ_f − ρ) / (18 µ). For single hard balls in still fluid: drops that cling together are faster,
/// emulsified oil never rises, currents carry all of it along. Check value read: 60 µm, 0.9 in 0.9984 at 1.05 mPa·s: 0.271 US gal/min per ft².
/// </summary>
public static class Stokes
{
    private const double Gravity = 9.80665;
    private const double HoldsUpTo = 0.1;
    private const double ApproximateUpTo = 1;

    /// <summary>The speed of one ball.</summary>
    /// <param name="diameterMicrometres">d, 0.1 to 10 000 µm.</param>
    /// <param name="densityKgPerCubicMetre">ρ of drop or grain, 100 to 25 000 kg/m³.</param>
    /// <param name="fluidDensityKgPerCubicMetre">ρ_f, 500 to 2000 kg/m³.</param>
    /// <param name="viscosityMilliPascalSeconds">µ of the fluid, 0.1 to 10 000 mPa·s; water at 20 °C has 1.0.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static StokesSpeed Speed(
        double diameterMicrometres,
        double densityKgPerCubicMetre,
        double fluidDensityKgPerCubicMetre,
        double viscosityMilliPascalSeconds)
    {
        var d = Require.Between(diameterMicrometres, 0.1, 10_000, "µm") * 1e-6;
        Require.Between(densityKgPerCubicMetre, 100, 25_000, "kg/m³");
        Require.Between(fluidDensityKgPerCubicMetre, 500, 2000, "kg/m³");
        var viscosity = Require.Between(viscosityMilliPascalSeconds, 0.1, 10_000, "mPa·s") * 1e-3;
        var speed = Gravity * d * d * (fluidDensityKgPerCubicMetre - densityKgPerCubicMetre) / (18 * viscosity);
        var reynolds = fluidDensityKgPerCubicMetre * Math.Abs(speed) * d / viscosity;
        var range = reynolds <= HoldsUpTo ? StokesRange.Holds : reynolds <= ApproximateUpTo ? StokesRange.Approximate : StokesRange.TooFast;
        return new(1000 * speed, reynolds, range);
    }

    /// <summary>d = √(18 µ h / (t g |ρ_f − ρ|)): the smallest drop or grain that crosses a depth in a time, µm. Needs difference in density.</summary>
    /// <param name="depthMm">h, 0 to 20 000 mm.</param>
    /// <param name="seconds">t, 0.1 to 10⁹ s.</param>
    /// <param name="densityKgPerCubicMetre">ρ, 100 to 25 000 kg/m³, at least 1 kg/m³ from the fluid's.</param>
    /// <param name="fluidDensityKgPerCubicMetre">ρ_f, 500 to 2000 kg/m³.</param>
    /// <param name="viscosityMilliPascalSeconds">µ, 0.1 to 10 000 mPa·s.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static double SmallestMicrometres(
        double depthMm,
        double seconds,
        double densityKgPerCubicMetre,
        double fluidDensityKgPerCubicMetre,
        double viscosityMilliPascalSeconds)
    {
        var speed = Require.Between(depthMm, 0, 20_000, "mm") / 1000 / Require.Between(seconds, 0.1, 1e9, "s");
        Require.Between(densityKgPerCubicMetre, 100, 25_000, "kg/m³");
        Require.Between(fluidDensityKgPerCubicMetre, 500, 2000, "kg/m³");
        var viscosity = Require.Between(viscosityMilliPascalSeconds, 0.1, 10_000, "mPa·s") * 1e-3;
        var difference = Math.Abs(fluidDensityKgPerCubicMetre - densityKgPerCubicMetre);
        return difference >= 1
            ? 1e6 * Math.Sqrt(18 * viscosity * speed / (Gravity * difference))
            : throw new ArgumentOutOfRangeException(nameof(densityKgPerCubicMetre), densityKgPerCubicMetre, "Accepted are densities at least 1 kg/m³ from the fluid's.");
    }
}
