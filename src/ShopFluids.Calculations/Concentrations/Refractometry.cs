using ShopFluids.Calculations.Uncertainties;

namespace ShopFluids.Calculations.Concentrations;

/// <summary>
/// Concentration by refractometer: c = f (B₂₀ − B_w). Scale and temperature correction are those of sucrose, so for an
/// oil-in-water emulsion both are approximations; tramp oil reads as coolant (DGUV Regel 109-003, 7.1.1).
/// </summary>
public static class Refractometry
{
    /// <summary>Lowest temperature of the correction table, °C.</summary>
    public const double MinimumTemperatureCelsius = SucroseTemperatureTable.FirstCelsius;

    /// <summary>Highest temperature of the correction table, °C.</summary>
    public const double MaximumTemperatureCelsius = SucroseTemperatureTable.LastCelsius;

    /// <summary>Highest reading taken, °Bx.</summary>
    public const double MaximumBrix = 30;

    /// <summary>Lowest reading of make-up water taken, °Bx (a badly zeroed instrument reads below 0).</summary>
    public const double MinimumWaterBrix = -1;

    /// <summary>Highest reading of make-up water taken, °Bx.</summary>
    public const double MaximumWaterBrix = 5;

    /// <summary>Highest refractometer factor taken, % v/v per °Bx.</summary>
    public const double MaximumFactor = 20;

    /// <summary>
    /// B₂₀ = B + k(B, T), °Bx: a reading on an instrument without temperature compensation brought to 20 °C. k is the ICUMSA table
    /// (from memory, checked in part against OIV-MA-AS2-02 Table I), bilinear between its entries at 0, 5, 10, 15 % and whole degrees.
    /// Above 15 °Bx the 15 % column is held: against OIV at 20 % and 10 °C that is 0.04 °Bx too little correction.
    /// </summary>
    /// <param name="brix">B, the reading, 0 to 30 °Bx.</param>
    /// <param name="temperatureCelsius">T, temperature of sample and prism, 10 to 30 °C.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static double CorrectTo20Celsius(double brix, double temperatureCelsius)
    {
        Require.Between(brix, 0, MaximumBrix, "Brix");
        Require.Between(temperatureCelsius, MinimumTemperatureCelsius, MaximumTemperatureCelsius, "degrees Celsius");
        return brix + SucroseTemperatureTable.At(brix, temperatureCelsius).Correction;
    }

    /// <summary>c = f (B₂₀ − B_w), % v/v. The product's factor f belongs to this form in trade practice; definition.</summary>
    /// <param name="brix20">B₂₀, the reading at 20 °C (corrected, or from an instrument that compensates), from <paramref name="waterBrix"/> to 31 °Bx.</param>
    /// <param name="waterBrix">B_w, the make-up water at 20 °C on the same instrument, −1 to 5 °Bx.</param>
    /// <param name="factor">f, % v/v per °Bx, above 0 up to 20.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range, the sample reads below its own water, or the result would pass 100 %.</exception>
    public static double Percent(double brix20, double waterBrix, double factor)
    {
        Require.Between(waterBrix, MinimumWaterBrix, MaximumWaterBrix, "Brix");
        Require.Positive(factor, MaximumFactor, "% v/v per Brix");
        Require.Between(brix20, waterBrix, HighestBrix20(waterBrix, factor), "Brix (its water's reading up to 100 % v/v)");
        return Math.Min(factor * (brix20 - waterBrix), 100);
    }

    /// <summary>The reading at 20 °C that means a concentration: the way back of <see cref="Percent"/>.</summary>
    /// <param name="percent">c, % v/v, 0 to 100.</param>
    /// <param name="waterBrix">B_w, the make-up water at 20 °C on the same instrument, −1 to 5 °Bx.</param>
    /// <param name="factor">f, % v/v per °Bx, above 0 up to 20.</param>
    /// <returns>B₂₀, °Bx; it may lie beyond the end of the scale.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static double ReadingAt(double percent, double waterBrix, double factor)
    {
        Require.Between(percent, 0, 100, "% v/v");
        Require.Between(waterBrix, MinimumWaterBrix, MaximumWaterBrix, "Brix");
        Require.Positive(factor, MaximumFactor, "% v/v per Brix");
        return waterBrix + (percent / factor);
    }

    /// <summary>
    /// The lowest reading that still means a concentration of 0 % or more, °Bx: what a field may name as the start of its range.
    /// Found by halving, because B + k(B, T) rises with B; within 1e-9 °Bx, on the accepted side.
    /// </summary>
    /// <param name="waterBrix">B_w, −1 to 5 °Bx.</param>
    /// <param name="temperatureCelsius">T, 10 to 30 °C; null where the instrument compensates.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static double LowestReading(double waterBrix, double? temperatureCelsius)
    {
        Require.Between(waterBrix, MinimumWaterBrix, MaximumWaterBrix, "Brix");
        if (temperatureCelsius is not { } celsius)
        {
            return Math.Max(0, waterBrix);
        }

        var (below, accepted) = (0.0, MaximumBrix);
        if (CorrectTo20Celsius(below, celsius) >= waterBrix)
        {
            return below;
        }

        while (accepted - below > 1e-9)
        {
            var middle = (below + accepted) / 2;
            (below, accepted) = CorrectTo20Celsius(middle, celsius) >= waterBrix ? (below, middle) : (middle, accepted);
        }

        return accepted;
    }

    /// <summary>
    /// The highest reading that still means at most 100 %, °Bx: what a field may name as the end of its range. Found by halving, as
    /// <see cref="LowestReading"/>; never above 30 °Bx.
    /// </summary>
    /// <param name="waterBrix">B_w, −1 to 5 °Bx.</param>
    /// <param name="factor">f, % v/v per °Bx, above 0 up to 20.</param>
    /// <param name="temperatureCelsius">T, 10 to 30 °C; null where the instrument compensates.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static double HighestReading(double waterBrix, double factor, double? temperatureCelsius)
    {
        Require.Between(waterBrix, MinimumWaterBrix, MaximumWaterBrix, "Brix");
        Require.Positive(factor, MaximumFactor, "% v/v per Brix");
        var highest = HighestBrix20(waterBrix, factor);
        if (temperatureCelsius is not { } celsius)
        {
            return Math.Min(MaximumBrix, highest);
        }

        if (CorrectTo20Celsius(MaximumBrix, celsius) <= highest)
        {
            return MaximumBrix;
        }

        var (accepted, above) = (0.0, MaximumBrix);
        while (above - accepted > 1e-9)
        {
            var middle = (accepted + above) / 2;
            (accepted, above) = CorrectTo20Celsius(middle, celsius) <= highest ? (middle, above) : (accepted, middle);
        }

        return accepted;
    }

    /// <summary>
    /// The concentration with its uncertainty, % v/v, k = 2 (JCGM 100, first order). Counted: resolution and accuracy of the sample's
    /// reading, resolution of the water's reading, resolution of the thermometer. Not counted, because nobody states them: the
    /// uncertainty of the factor and of using sucrose's temperature table for an emulsion. The accuracy of the water's reading is left
    /// out because the same instrument's error is in both readings and falls out of the difference.
    /// </summary>
    /// <param name="reading">What was read, within the ranges of its record.</param>
    /// <exception cref="ArgumentOutOfRangeException">The sample reads below its own water once corrected, or the result would pass 100 %.</exception>
    public static Estimate Estimate(RefractometerReading reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        var (correction, perBrix, perCelsius) = reading.TemperatureCelsius is { } celsius
            ? SucroseTemperatureTable.At(reading.Brix, celsius)
            : (0, 0, 0);
        var percent = Percent(reading.Brix + correction, reading.WaterBrix, reading.Factor);
        var sample = Gum.Combine(Gum.FromResolution(reading.ResolutionBrix), Gum.FromAccuracy(reading.AccuracyBrix));
        return Gum.Propagate(
            percent,
            (reading.Factor * (1 + perBrix), sample),
            (-reading.Factor, Gum.FromResolution(reading.ResolutionBrix)),
            (reading.Factor * perCelsius, Gum.FromResolution(reading.TemperatureResolutionCelsius)));
    }

    private static double HighestBrix20(double waterBrix, double factor) => Math.Min(MaximumBrix + 1, waterBrix + (100 / factor));
}
