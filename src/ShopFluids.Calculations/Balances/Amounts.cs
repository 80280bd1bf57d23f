using System.Runtime.CompilerServices;
using ShopFluids.Calculations.Uncertainties;

namespace ShopFluids.Calculations.Balances;

/// <summary>The ranges that all parts of a balance share; an uncertainty is refused when it is wider than the range of its value.</summary>
internal static class Amounts
{
    public const double MostLitres = 1_000_000;
    public const double MostDays = 1_000_000;
    public const double MostMgPerLitre = 1_000_000;

    public static double Day(double day, [CallerArgumentExpression(nameof(day))] string name = "") =>
        Require.Between(day, -MostDays, MostDays, "days", name);

    public static Estimate Litres(Estimate litres, [CallerArgumentExpression(nameof(litres))] string name = "") =>
        Within(litres, 0, MostLitres, "L", name);

    public static Estimate Percent(Estimate percent, [CallerArgumentExpression(nameof(percent))] string name = "") =>
        Within(percent, 0, 100, "% v/v", name);

    public static Estimate Within(Estimate estimate, double minimum, double maximum, string unit, string name)
    {
        Require.Between(estimate.Value, minimum, maximum, unit, name);
        Require.Between(estimate.ExpandedUncertainty, 0, maximum, unit + " as uncertainty", name);
        return estimate;
    }
}
