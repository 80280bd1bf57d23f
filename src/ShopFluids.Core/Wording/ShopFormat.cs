using System.Globalization;
using ShopFluids.Calculations.Volumes;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Wording;

/// <summary>
/// The one place where quantities, numbers, days and times become text and back: knows the culture, the preferred units and
/// the shop's time zone. What goes in and comes out of storage is always canonical (L, mm, °C, mg/L, UTC).
/// </summary>
public sealed partial class ShopFormat(CultureInfo culture, UnitSystem units, ShopCalendar calendar)
{
    public CultureInfo Culture { get; } = culture;

    public UnitSystem Units { get; } = units;

    public ShopCalendar Calendar { get; } = calendar;

    private bool IsUs => Units == UnitSystem.UsCustomary;

    /// <summary>7.0 to 9.0, or the one end there is; null where there is none.</summary>
    public string? Range(string? low, string? high) => (low, high) switch
    {
        (null, null) => null,
        (null, { } to) => Say(Texts.Sheet_UpTo, to),
        ({ } from, null) => Say(Texts.Sheet_From, from),
        ({ } from, { } to) => from == to ? from : Say(Texts.Time_FromTo, from, to),
    };

    /// <summary>A sentence of the texts with its places filled, in this culture.</summary>
    public string Say(string pattern, params object?[] values) => string.Format(Culture, pattern, values);

    public string Number(decimal value, int decimals) => WithMinus(decimal.Round(value, decimals, MidpointRounding.AwayFromZero).ToString("N" + decimals.ToString(CultureInfo.InvariantCulture), Culture));

    public string Number(double value, int decimals) => Number((decimal)value, decimals);

    public string Percent(double percent) => $"{Number(percent, 1)} %";

    /// <summary>160 L or 42.3 gal; one decimal under 1,000.</summary>
    public string Volume(double litres) => $"{VolumeNumber(litres)} {VolumeUnit}";

    /// <summary>The number alone, for where the unit stands beside it.</summary>
    public string VolumeNumber(double litres)
    {
        var value = IsUs ? VolumeUnits.UsGallonsFromLitres(litres) : litres;
        return Number(value, Math.Abs(value) >= 1000 ? 0 : IsUs && Math.Abs(value) < 10 ? 2 : 1);
    }

    public string VolumeUnit => IsUs ? "gal" : "L";

    public string Length(double millimetres) => IsUs ? $"{Number(LengthUnits.InchesFromMillimetres(millimetres), 2)} in" : $"{Number(millimetres, 0)} mm";

    public string Temperature(double celsius) => IsUs ? $"{Number(TemperatureUnits.FahrenheitFromCelsius(celsius), 0)} °F" : $"{Number(celsius, 0)} °C";

    public string Hardness(double milligramsPerLitre) => IsUs ? $"{Number(HardnessUnits.FromMgPerLitreCaCO3(milligramsPerLitre, HardnessUnit.GrainPerUsGallon), 1)} gpg" : $"{Number(milligramsPerLitre, 0)} mg/L";

    public string Money(decimal amount, string currency) => $"{Number(amount, 2)} {currency}";

    /// <summary>A whole count.</summary>
    public string Count(int value) => value.ToString("N0", Culture);

    /// <summary>The value shown in the preferred unit of a canonical one, with its decimals.</summary>
    /// <returns>The number and the unit, such as 12.6 and %.</returns>
    public (string Number, string Unit) InUnit(double value, string canonicalUnit, int decimals) => (canonicalUnit, IsUs) switch
    {
        ("mm", true) => (Number(LengthUnits.InchesFromMillimetres(value), 2), "in"),
        ("L", _) => (VolumeNumber(value), VolumeUnit),
        ("°C", true) => (Number(TemperatureUnits.FahrenheitFromCelsius(value), 0), "°F"),
        _ => Rate(value, canonicalUnit, decimals),
    };

    /// <summary>The number and its unit, or the number alone where the unit is empty.</summary>
    public string Quantity(double value, string canonicalUnit, int decimals)
    {
        var (number, unit) = InUnit(value, canonicalUnit, decimals);
        return unit.Length == 0 ? number : $"{number} {unit}";
    }

    private (string Number, string Unit) Rate(double value, string canonicalUnit, int decimals)
    {
        var (preferred, unit) = QuantityInput.Preferred(value, canonicalUnit, Units);
        return (Number(preferred, decimals), unit);
    }

    // A hyphen is no minus; the sign of the type is.
    private static string WithMinus(string number) => number.Replace('-', '\u2212');
}
