using ShopFluids.Calculations.Volumes;

namespace ShopFluids.Calculations.Electrodes;

/// <summary>The slope that theory gives a pH electrode.</summary>
public static class Nernst
{
    private const double GasConstant = 8.314462618;
    private const double FaradayConstant = 96485.33212;
    private const double MillivoltsPerVolt = 1000;

    /// <summary>k = ln 10 R T / F, mV per pH: 59.16 at 25 °C. Constants of CODATA 2018.</summary>
    /// <param name="celsius">0 to 100 °C.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="celsius"/> is out of its range.</exception>
    public static double SlopeMillivoltsPerPh(double celsius) =>
        MillivoltsPerVolt * Math.Log(10) * GasConstant * (Require.Between(celsius, 0, 100, "°C") - TemperatureUnits.AbsoluteZeroCelsius) / FaradayConstant;
}
