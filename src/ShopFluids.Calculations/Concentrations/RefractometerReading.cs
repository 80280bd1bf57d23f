namespace ShopFluids.Calculations.Concentrations;

/// <summary>What was read, and with what: all that a concentration by refractometer and its uncertainty need.</summary>
/// <param name="Brix">The reading of the sample as it stands on the scale, 0 to 30 °Bx (% sucrose).</param>
/// <param name="WaterBrix">The reading of the make-up water at 20 °C on the same instrument, −1 to 5 °Bx; 0 where it was set to zero with that water.</param>
/// <param name="Factor">The product's refractometer factor, % v/v per °Bx, above 0 up to 20.</param>
/// <param name="TemperatureCelsius">Temperature of sample and prism, 10 to 30 °C; null where the instrument compensates for it.</param>
/// <param name="ResolutionBrix">The step of the scale, 0 to 5 °Bx.</param>
/// <param name="AccuracyBrix">The maker's "±" as a half width, 0 to 5 °Bx.</param>
/// <param name="TemperatureResolutionCelsius">The step of the thermometer, 0 to 5 °C; not used where the instrument compensates.</param>
/// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
public sealed record RefractometerReading(
    double Brix,
    double WaterBrix,
    double Factor,
    double? TemperatureCelsius,
    double ResolutionBrix,
    double AccuracyBrix,
    double TemperatureResolutionCelsius = 1)
{
    /// <summary>The reading of the sample, 0 to 30 °Bx.</summary>
    public double Brix { get; } = Require.Between(Brix, 0, Refractometry.MaximumBrix, "Brix");

    /// <summary>The reading of the make-up water at 20 °C, −1 to 5 °Bx.</summary>
    public double WaterBrix { get; } = Require.Between(WaterBrix, Refractometry.MinimumWaterBrix, Refractometry.MaximumWaterBrix, "Brix");

    /// <summary>The product's factor, % v/v per °Bx, above 0 up to 20.</summary>
    public double Factor { get; } = Require.Positive(Factor, Refractometry.MaximumFactor, "% v/v per Brix");

    /// <summary>Temperature of sample and prism, 10 to 30 °C; null where the instrument compensates for it.</summary>
    public double? TemperatureCelsius { get; } = TemperatureCelsius is { } celsius
        ? Require.Between(celsius, Refractometry.MinimumTemperatureCelsius, Refractometry.MaximumTemperatureCelsius, "degrees Celsius", nameof(TemperatureCelsius))
        : null;

    /// <summary>The step of the scale, 0 to 5 °Bx.</summary>
    public double ResolutionBrix { get; } = Require.Between(ResolutionBrix, 0, 5, "Brix");

    /// <summary>The maker's half width, 0 to 5 °Bx.</summary>
    public double AccuracyBrix { get; } = Require.Between(AccuracyBrix, 0, 5, "Brix");

    /// <summary>The step of the thermometer, 0 to 5 °C.</summary>
    public double TemperatureResolutionCelsius { get; } = Require.Between(TemperatureResolutionCelsius, 0, 5, "degrees Celsius");
}
