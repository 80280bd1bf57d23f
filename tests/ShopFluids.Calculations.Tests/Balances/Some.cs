using ShopFluids.Calculations.Balances;
using ShopFluids.Calculations.Uncertainties;

namespace ShopFluids.Calculations.Tests.Balances;

/// <summary>Readings, movements and rates, to be changed argument by argument.</summary>
internal static class Some
{
    public static SumpReading Reading(
        double day, double litres = 400, double percent = 6, double litresUncertainty = 0, double percentUncertainty = 0, double? hours = null) =>
        new(day, new(litres, litresUncertainty), new(percent, percentUncertainty), hours);

    public static Movement Addition(double day, double litres, double percent, double litresUncertainty = 0, double percentUncertainty = 0) =>
        Movement.Addition(day, new(litres, litresUncertainty), new(percent, percentUncertainty));

    public static Movement Removal(double day, double litres, double percent, double litresUncertainty = 0, double percentUncertainty = 0) =>
        Movement.Removal(day, new(litres, litresUncertainty), new(percent, percentUncertainty));

    public static LossRates Rates(double lost, double evaporation, double lostUncertainty = 0, double evaporationUncertainty = 0) =>
        new(new(lost, lostUncertainty), new(evaporation, evaporationUncertainty), Estimate.Exact(lost - evaporation));
}
