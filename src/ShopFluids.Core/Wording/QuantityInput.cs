using System.Globalization;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Wording;

/// <summary>
/// Reads and writes the number in a box: typed in the person's units, kept in L, mm, °C and mg/L. Factors are the exact
/// definitions, so that 12 in is 304.8 mm and nothing else; what does not end is kept to six decimals, as the database keeps it.
/// </summary>
public static class QuantityInput
{
    private const int KeptDecimals = 6;
    private const decimal MillimetresPerInch = 25.4m;
    private const decimal LitresPerGallon = 3.785411784m;
    private const decimal MilligramsPerGrain = 64.79891m;

    // lbf/in² from the exact definitions of pound, standard gravity and inch.
    private const decimal PsiPerBar = 100_000m * 0.0254m * 0.0254m / (0.45359237m * 9.80665m);

    public static bool TryRead(string? text, QuantityKind kind, UnitSystem units, out decimal canonical)
    {
        canonical = 0;
        if (!NumberInput.TryRead(text, out var typed))
        {
            return false;
        }

        // A number too large for its unit is no number that could be meant.
        if (Math.Abs(typed) > 1_000_000_000_000m)
        {
            return false;
        }

        canonical = units == UnitSystem.UsCustomary ? decimal.Round(FromUs(typed, kind), KeptDecimals) : typed;
        return true;
    }

    /// <summary>As it would be typed: no thousands signs, a hyphen as minus, no idle zeros.</summary>
    public static string Write(decimal canonical, QuantityKind kind, UnitSystem units, CultureInfo culture) =>
        units == UnitSystem.UsCustomary && kind != QuantityKind.Number
            ? decimal.Round(ToUs(canonical, kind), 3, MidpointRounding.AwayFromZero).ToString("0.###", culture)
            : canonical.ToString("0.######", culture);

    /// <summary>The unit beside the box; empty for a plain number.</summary>
    public static string Unit(QuantityKind kind, UnitSystem units) => (kind, units) switch
    {
        (QuantityKind.Length, UnitSystem.UsCustomary) => "in",
        (QuantityKind.Length, _) => "mm",
        (QuantityKind.Volume, UnitSystem.UsCustomary) => "gal",
        (QuantityKind.Volume, _) => "L",
        (QuantityKind.Temperature or QuantityKind.TemperatureStep, UnitSystem.UsCustomary) => "°F",
        (QuantityKind.Temperature or QuantityKind.TemperatureStep, _) => "°C",
        (QuantityKind.Hardness, UnitSystem.UsCustomary) => "gpg",
        (QuantityKind.Hardness, _) => "mg/L",
        (QuantityKind.FlowPerMinute, UnitSystem.UsCustomary) => "gal/min",
        (QuantityKind.FlowPerMinute, _) => "L/min",
        (QuantityKind.FlowPerHour, UnitSystem.UsCustomary) => "gal/h",
        (QuantityKind.FlowPerHour, _) => "L/h",
        (QuantityKind.FlowPerDay, UnitSystem.UsCustomary) => "gal/day",
        (QuantityKind.FlowPerDay, _) => "L/day",
        (QuantityKind.Pressure, UnitSystem.UsCustomary) => "psi",
        (QuantityKind.Pressure, _) => "bar",
        _ => "",
    };

    /// <summary>The kind of a parameter's canonical unit.</summary>
    public static QuantityKind OfUnit(string canonicalUnit) => canonicalUnit switch
    {
        "mm" => QuantityKind.Length,
        "L" => QuantityKind.Volume,
        "°C" => QuantityKind.Temperature,
        "L/min" => QuantityKind.FlowPerMinute,
        "L/h" => QuantityKind.FlowPerHour,
        "L/day" => QuantityKind.FlowPerDay,
        "bar" => QuantityKind.Pressure,
        "/L" => QuantityKind.PerVolume,
        _ => QuantityKind.Number,
    };

    /// <summary>The number in the preferred unit of a canonical one, and that unit: for axes and rates, which have no zero point of their own.</summary>
    /// <param name="canonicalUnit">L/min, L/h, L/day, bar or /L; any other is left as it is.</param>
    public static (double Value, string Unit) Preferred(double canonical, string canonicalUnit, UnitSystem units) => (OfUnit(canonicalUnit), units) switch
    {
        (QuantityKind.FlowPerMinute or QuantityKind.FlowPerHour or QuantityKind.FlowPerDay, UnitSystem.UsCustomary) => (canonical / (double)LitresPerGallon, Unit(OfUnit(canonicalUnit), units)),
        (QuantityKind.Pressure, UnitSystem.UsCustomary) => (canonical * (double)PsiPerBar, Unit(QuantityKind.Pressure, units)),
        (QuantityKind.PerVolume, UnitSystem.UsCustomary) => (canonical * (double)LitresPerGallon, "/gal"),
        _ => (canonical, canonicalUnit),
    };

    /// <summary>Whether somebody may have meant thousands: 1,200 is read as 1.2, which is then said.</summary>
    public static bool IsAmbiguous(string? text)
    {
        var parts = (text ?? "").Trim().TrimStart('-', '\u2212').Split(',', '.');
        return parts is [{ Length: >= 1 and <= 3 } whole, { Length: 3 } rest]
            && whole[0] != '0'
            && whole.All(char.IsAsciiDigit)
            && rest.All(char.IsAsciiDigit);
    }

    /// <summary>What is wrong with a text that is no number, or may be another than it seems.</summary>
    public static FieldProblem ProblemOf(string? text) => IsAmbiguous(text) ? FieldProblem.MaybeThousands : FieldProblem.NotANumber;

    private static decimal FromUs(decimal typed, QuantityKind kind) => kind switch
    {
        QuantityKind.Length => typed * MillimetresPerInch,
        QuantityKind.Volume or QuantityKind.FlowPerMinute or QuantityKind.FlowPerHour or QuantityKind.FlowPerDay => typed * LitresPerGallon,
        QuantityKind.Pressure => typed / PsiPerBar,
        QuantityKind.Temperature => (typed - 32) / 1.8m,
        QuantityKind.TemperatureStep => typed / 1.8m,
        QuantityKind.Hardness => typed * MilligramsPerGrain / LitresPerGallon,
        QuantityKind.PerVolume => typed / LitresPerGallon,
        _ => typed,
    };

    private static decimal ToUs(decimal canonical, QuantityKind kind) => kind switch
    {
        QuantityKind.Length => canonical / MillimetresPerInch,
        QuantityKind.Volume or QuantityKind.FlowPerMinute or QuantityKind.FlowPerHour or QuantityKind.FlowPerDay => canonical / LitresPerGallon,
        QuantityKind.Pressure => canonical * PsiPerBar,
        QuantityKind.Temperature => (canonical * 1.8m) + 32,
        QuantityKind.TemperatureStep => canonical * 1.8m,
        QuantityKind.Hardness => canonical * LitresPerGallon / MilligramsPerGrain,
        QuantityKind.PerVolume => canonical * LitresPerGallon,
        _ => canonical,
    };
}
