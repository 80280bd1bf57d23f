using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Readings.Corrections;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Pages.Setup.Fields;
using ShopFluids.Web.Pages.Setup.Forms;
using ShopFluids.Web.Shop.Entry;

namespace ShopFluids.Web.Pages.Sumps.Corrections;

/// <summary>One value of a reading while it is being corrected. An emptied box leaves the value out.</summary>
public sealed class CorrectionRow
{
    private string _confirmed = "";

    /// <param name="stored">Null where the value was left out of the reading.</param>
    public CorrectionRow(EntryField field, StoredValue? stored, IReadOnlyList<string> instruments, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(field);
        ArgumentNullException.ThrowIfNull(instruments);
        ArgumentNullException.ThrowIfNull(format);
        Field = field;
        Stored = stored;
        Instruments = instruments;
        var usual = EntryKit.Usual(field, format.Units);
        WayKey = (stored is null ? usual : field.Ways.FirstOrDefault(w => IsOf(w, stored)) ?? usual).Key;
        Value.Show(stored?.RawValue, format);
        Temperature.Show(stored?.TemperatureCelsius, format);
        Instrument = stored?.Instrument ?? "";
        if (stored?.IsConfirmed == true)
        {
            Confirm();
        }
    }

    public EntryField Field { get; }

    public StoredValue? Stored { get; }

    public IReadOnlyList<string> Instruments { get; }

    public NumberBox Value { get; } = new();

    public NumberBox Temperature { get; } = new(QuantityKind.Temperature);

    public string WayKey { get; set; }

    /// <summary>Empty where none is named.</summary>
    public string Instrument { get; set; }

    public EntryWay Way => Field.Ways.First(w => w.Key == WayKey);

    // Two values of one parameter that were got in two ways stand in two rows.
    public string Key => Field.Key == Field.Parameter && Stored?.Method == MeasuringMethod.Direct ? FieldNames.Of($"{Field.Key}-{MeasuringMethod.Direct}") : FieldNames.Of(Field.Key);

    public string TemperatureKey => $"{Key}.temperatureC";

    public string InstrumentKey => $"{Key}.instrument";

    public string WayField => $"{Key}.unit";

    public bool AsksTemperature => Field.Ways.Any(w => w.Method == MeasuringMethod.Refractometer);

    public bool IsConfirmed => _confirmed == Answer;

    /// <summary>A scale whose steps have names, not numbers.</summary>
    public bool IsWords => Field.WordCount > 0;

    // Another value or another unit is asked about anew.
    private string Answer => $"{Value.Text};{WayKey}";

    public void Confirm() => _confirmed = Answer;

    public IReadOnlyList<Choice> Ways => [.. Field.Ways.Select(w => new Choice(w.Key, w.Unit))];

    public IReadOnlyList<Choice> Steps(Sentences sentences)
    {
        ArgumentNullException.ThrowIfNull(sentences);
        return [.. sentences.Words(Field.Parameter).Select((word, n) => new Choice(n.ToString(System.Globalization.CultureInfo.InvariantCulture), word))];
    }

    public string Name(Sentences sentences)
    {
        ArgumentNullException.ThrowIfNull(sentences);
        var name = sentences.Parameter(Field.Parameter);
        return Field.Ways[0].Method == MeasuringMethod.Titration ? sentences.Format.Say(Texts.Entry_ByTitration, name) : name;
    }

    /// <summary>The accepted range of the chosen unit; null where it is known only after conversion.</summary>
    public string? Range(ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        return !IsWords && Way is { Low: { } low, High: { } high }
            ? format.Say(Texts.Correct_Range, Amount(low, format), $"{Amount(high, format)} {Unit}".TrimEnd())
            : null;
    }

    /// <summary>Null where the box is empty, or the reader holds what is wrong with it.</summary>
    public TypedMeasurement? Read(FormReader read)
    {
        ArgumentNullException.ThrowIfNull(read);
        if (Value.IsEmpty)
        {
            return null;
        }

        var temperature = AsksTemperature ? read.OptionalNumber(TemperatureKey, Temperature) : null;
        if (Value.Value(read.Units) is not { } value)
        {
            read.Refuse(new FieldError(Key, FieldProblem.NotANumber, null, Way.Low, Way.High, Unit, Value.Text.Trim()));
            return null;
        }

        return new(Field.Parameter, Way.Method, value, Way.Unit, temperature, Instrument.Length == 0 ? null : Instrument, IsConfirmed);
    }

    /// <summary>Whether what was worked out is of this row.</summary>
    public bool IsOf(MeasurementOutcome measured)
    {
        ArgumentNullException.ThrowIfNull(measured);
        return measured.Parameter == Field.Parameter && (measured.Method.Length == 0 || measured.Method == Way.Method);
    }

    /// <summary>What it gives is unlikely, and nobody has said that it is right.</summary>
    public bool IsAsked(ReadingOutcome outcome)
    {
        ArgumentNullException.ThrowIfNull(outcome);
        return !IsConfirmed && !Value.IsEmpty && outcome.Measurements.Any(m => m.IsUnlikely && IsOf(m));
    }

    // The name of a scale is not a unit.
    private string Unit => Way.Unit == "pH" ? "" : Way.Unit;

    private static string Amount(decimal value, ShopFormat format) => format.Number(value, value == decimal.Truncate(value) ? 0 : 2);

    private static bool IsOf(EntryWay way, StoredValue stored) => way.Unit == stored.RawUnit && (stored.Method.Length == 0 || way.Method == stored.Method);
}
