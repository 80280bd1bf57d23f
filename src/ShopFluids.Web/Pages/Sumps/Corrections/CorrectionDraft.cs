using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Readings.Corrections;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Sumps.Corrections;

/// <summary>A reading while it is being corrected.</summary>
public sealed class CorrectionDraft
{
    private readonly CorrectionPage _page;
    private readonly Guid _id;
    private readonly ShopFormat _format;
    private readonly List<CorrectionRow> _rows;
    private readonly string _storedTakenAt;

    /// <param name="id">Of the reading that takes the place of the stored one.</param>
    public CorrectionDraft(CorrectionPage page, Guid id, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(page);
        ArgumentNullException.ThrowIfNull(format);
        (_page, _id, _format) = (page, id, format);
        _storedTakenAt = TakenAt = DayInput.WriteTime(page.TakenAtUtc, format.Calendar);
        Note = page.Note;
        _rows = [.. page.Values.Select(v => Row(page.FieldOf(v), v))];
    }

    public IReadOnlyList<CorrectionRow> Rows => _rows;

    /// <summary>What was not measured, or was left out.</summary>
    public IEnumerable<EntryField> Left => _page.Fields.Where(f => _rows.TrueForAll(r => r.Field.Key != f.Key));

    public string TakenAt { get; set; }

    public string Note { get; set; }

    public string Reason { get; set; } = "";

    public void Add(EntryField field) => _rows.Add(Row(field, null));

    /// <summary>Nothing was changed but, perhaps, the reason.</summary>
    public bool IsAsStored(RecordReading command)
    {
        ArgumentNullException.ThrowIfNull(command);
        return command.TakenAtUtc == _page.TakenAtUtc
            && command.Note == _page.Note
            && command.Measurements.Count == _page.Values.Count
            && command.Measurements.Zip(_page.Values).All(p => IsSame(p.First, p.Second));
    }

    public RecordReading Read(FormReader read)
    {
        ArgumentNullException.ThrowIfNull(read);

        // Untouched it stands to the millisecond, which the box does not show.
        var takenAt = TakenAt == _storedTakenAt ? _page.TakenAtUtc : read.Time(FieldNames.TakenAt, TakenAt);
        var measured = _rows.Select(r => r.Read(read)).OfType<TypedMeasurement>().ToList();
        return new(_id, _page.Place.Tag, takenAt, Note.ReplaceLineEndings("\n"), measured, _page.ReadingId, Reason.Trim());
    }

    /// <summary>The command knows one name for a parameter; a second way to measure it has a row of its own.</summary>
    public string PlaceOf(FieldError error)
    {
        ArgumentNullException.ThrowIfNull(error);
        var parts = error.Field.Split('.');
        var row = parts.Length < 2 ? null : _rows
            .Where(r => r.Field.Parameter == parts[1] && !r.Value.IsEmpty)
            .OrderByDescending(r => r.Way.Unit == error.Unit)
            .FirstOrDefault();
        return row is null ? error.Field : string.Join('.', [row.Key, .. parts.Skip(2)]);
    }

    private CorrectionRow Row(EntryField field, StoredValue? stored) => new(field, stored, _page.Instruments[field.Key], _format);

    private static bool IsSame(TypedMeasurement typed, StoredValue stored) =>
        typed.Parameter == stored.Parameter
        && (stored.Method.Length == 0 || typed.Method == stored.Method)
        && typed.Value == stored.RawValue
        && typed.Unit == stored.RawUnit
        && typed.TemperatureCelsius == stored.TemperatureCelsius
        && typed.Instrument == stored.Instrument;
}
