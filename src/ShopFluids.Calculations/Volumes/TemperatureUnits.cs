namespace ShopFluids.Calculations.Volumes;

/// <summary>Temperature scales; exact by definition.</summary>
public static class TemperatureUnits
{
    /// <summary>Absolute zero, °C.</summary>
    public const double AbsoluteZeroCelsius = -273.15;

    /// <summary>Absolute zero, °F.</summary>
    public const double AbsoluteZeroFahrenheit = -459.67;

    private const double Maximum = 10_000;

    /// <summary>t_C = (t_F − 32) / 1.8.</summary>
    /// <param name="fahrenheit">−459.67 to 10 000 °F.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="fahrenheit"/> is out of that range.</exception>
    public static double CelsiusFromFahrenheit(double fahrenheit) =>
        (Require.Between(fahrenheit, AbsoluteZeroFahrenheit, Maximum, "degrees Fahrenheit") - 32) / 1.8;

    /// <summary>t_F = 1.8 t_C + 32.</summary>
    /// <param name="celsius">−273.15 to 10 000 °C.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="celsius"/> is out of that range.</exception>
    public static double FahrenheitFromCelsius(double celsius) =>
        (Require.Between(celsius, AbsoluteZeroCelsius, Maximum, "degrees Celsius") * 1.8) + 32;
}
