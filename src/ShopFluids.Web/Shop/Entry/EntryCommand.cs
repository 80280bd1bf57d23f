using System.Globalization;
using ShopFluids.Calculations.Volumes;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Shop.Entry;

/// <summary>The typed form as a command, with what could not be read as a number or a time.</summary>
public sealed record EntryCommand(RecordReading Command, IReadOnlyList<EntryFault> Faults)
{
    private const string BrowserTime = "yyyy-MM-dd'T'HH:mm";
    private const int LongestQuote = 30;
    private const decimal ColdestSampleCelsius = 10;
    private const decimal WarmestSampleCelsius = 30;

    /// <param name="defaultTakenAtUtc">The time of the reading where none is typed; what was on paper was read earlier, and has to say when.</param>
    public static EntryCommand Of(EntryForm form, EntryPage page, ShopFormat format, DateTime defaultTakenAtUtc)
    {
        var faults = new List<EntryFault>();
        var measurements = page.Fields.Where(f => form.Of(f).Value.Length > 0).Select(f => Typed(form, page, f, format, faults)).OfType<TypedMeasurement>().ToList();
        var takenAt = form is { TakenAt.Length: 0, Paper.Length: 0 } ? defaultTakenAtUtc : TakenAt(form.TakenAt, format);
        if (takenAt is null)
        {
            faults.Add(new(EntryForm.TakenAtName, new(FieldNames.TakenAt, FieldProblem.NotATime)));
        }

        if (form.Photo?.Fault is { } fault)
        {
            faults.Add(new(EntryForm.PhotoName, fault));
        }

        return new(new RecordReading(form.ReadingId, page.Place.Tag, takenAt ?? defaultTakenAtUtc, form.Note, measurements) { Photo = form.Photo?.Picture }, faults);
    }

    /// <summary>Whether a text is a time as the browser writes it.</summary>
    public static bool IsTime(string text) => DateTime.TryParseExact(text, BrowserTime, CultureInfo.InvariantCulture, DateTimeStyles.None, out _);

    private static TypedMeasurement? Typed(EntryForm form, EntryPage page, EntryField field, ShopFormat format, List<EntryFault> faults)
    {
        var typed = form.Of(field);
        var way = EntryKit.WayOf(field, typed, format.Units);
        // No scale is read to three decimals, and ten thousand must not be stored as ten.
        if (QuantityInput.IsAmbiguous(typed.Value) || !NumberInput.TryRead(typed.Value, out var value))
        {
            faults.Add(new(EntryForm.ValueName(field.Key), new(FieldNames.Of(field.Parameter), QuantityInput.ProblemOf(typed.Value), null, way.Low, way.High, way.Unit, Shortened(typed.Value))));
            return null;
        }

        decimal? temperature = null;
        if (way.Method == MeasuringMethod.Refractometer && typed.Temperature.Length > 0 && EntryKit.AsksTemperature(page, field) && !EntryKit.IsCompensated(page, form))
        {
            if (!NumberInput.TryRead(typed.Temperature, out var degrees))
            {
                faults.Add(new(EntryForm.TemperatureName(field.Key), new(FieldNames.TemperatureOf(field.Parameter), FieldProblem.NotANumber, null, ColdestSampleCelsius, WarmestSampleCelsius, "°C", Shortened(typed.Temperature))));
                return null;
            }

            temperature = format.Units == UnitSystem.UsCustomary ? (decimal)TemperatureUnits.CelsiusFromFahrenheit((double)decimal.Clamp(degrees, -400, 10_000)) : degrees;
        }

        // A way that the page did not offer goes on as it came: the command says what it accepts.
        var (method, unit) = typed.Way.Length == 0 || typed.Way == way.Key ? (way.Method, way.Unit) : Split(typed.Way);
        return new(field.Parameter, method, value, unit, temperature, EntryKit.InstrumentFor(form, field, way), form.IsConfirmed(field));
    }

    private static string Shortened(string text) => text.Length <= LongestQuote ? text : text[..LongestQuote];

    private static (string Method, string Unit) Split(string way) => way.Split('/', 2) is [var method, var unit] ? (method, unit) : ("", way);

    /// <summary>A moment as a browser sends it, in shop time; null where it is none.</summary>
    internal static DateTime? TakenAt(string text, ShopFormat format)
    {
        if (!DateTime.TryParseExact(text, BrowserTime, CultureInfo.InvariantCulture, DateTimeStyles.None, out var local) || format.Calendar.Zone.IsInvalidTime(local))
        {
            return null;
        }

        return TimeZoneInfo.ConvertTimeToUtc(local, format.Calendar.Zone);
    }
}
