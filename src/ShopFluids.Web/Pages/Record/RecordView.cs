using ShopFluids.Core.Care;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Record.Trail;
using ShopFluids.Core.Wording;
using ShopFluids.Core.Wording.Trail;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Board;

namespace ShopFluids.Web.Pages.Record;

/// <summary>A page of the record as it is shown.</summary>
public sealed class RecordView(TrailPage page, TrailFilter filter, DeskWords words)
{
    // Enough to find the entry by; the whole fingerprint stands in the file.
    private const int HashLetters = 12;

    private readonly RecordValues _values = new(page, words.Format);
    private readonly RecordDocuments _documents = new(words.Sentences);

    public TrailPage Page => page;

    public TrailFilter Filter => filter;

    public string Count => words.Format.Say(Texts.Record_Count, words.Format.Count(page.Found), words.Format.Number((decimal)page.All, 0));

    public string Zone => words.Format.Say(Texts.Record_Zone, words.Format.Calendar.Zone.Id);

    public string Fingerprint => page.HeadHash;

    /// <summary>What must be kept, for how long, and until when at least.</summary>
    public IReadOnlyList<string> Kept
    {
        get
        {
            var retention = Retention.Of(page.Setup.Site);
            return
            [
                Keeping(Texts.Record_KeepFluids, Texts.Record_KeepFluidsFrom, retention.FluidYears, page.FirstAtUtc),
                Keeping(Texts.Record_KeepExposure, Texts.Record_KeepExposureFrom, retention.ExposureYears, page.FirstExposureUtc),
            ];
        }
    }

    /// <summary>The address of the older entries; null on the last page.</summary>
    public string? Older => page.Next is { } before ? RecordAddress.Of(filter with { Before = before }) : null;

    /// <summary>The address of the first page; null on it.</summary>
    public string? Newest => filter.Before is null ? null : RecordAddress.Of(filter with { Before = null });

    public string File => RecordAddress.Of(filter with { Before = null }, RecordAddress.File);

    public bool IsNarrowed => filter with { Before = null } != new TrailFilter();

    public string When(TrailEntry entry) => words.Format.DayAndTime(entry.AtUtc);

    public string Who(TrailEntry entry) => entry.Station is { } station ? words.Format.Say(Texts.Record_AtStation, entry.Actor, station) : entry.Actor;

    public string What(TrailEntry entry) => RecordActWords.Of(entry.Code);

    public string Number(TrailEntry entry) => words.Format.Number((decimal)entry.Sequence, 0);

    public static string ShortHash(TrailEntry entry) => entry.Hash.Length > HashLetters ? entry.Hash[..HashLetters] : entry.Hash;

    /// <summary>The page of what it was done to; null where it has none.</summary>
    public string? AddressOf(TrailEntry entry) => page.Setup.FindSump(entry.Subject) is { } sump ? SumpAddress.Of(sump.Tag) : null;

    /// <summary>What an entry holds, such as reading, measurement (3), in the order of the record.</summary>
    public string Summary(TrailEntry entry) => entry.Rows is null
        ? Texts.Record_Unreadable
        : string.Join(", ", Rows(entry.Rows).GroupBy(r => r.Entity, StringComparer.Ordinal).Select(g => g.Count() == 1 ? RecordRowWords.Of(g.Key) : words.Format.Say(Texts.Record_Rows, words.Format.Count(g.Count()), RecordRowWords.Of(g.Key))));

    /// <summary>What was done before what followed from it: a reading, then its values and flags, then work.</summary>
    public static IEnumerable<RowChange> Rows(IReadOnlyList<RowChange> rows) => rows.OrderBy(r => r.Entity switch
    {
        nameof(CareTask) => 3,
        nameof(Flag) => 2,
        nameof(Measurement) or nameof(FluidLot) => 1,
        _ => 0,
    });

    public string Title(RowChange row)
    {
        var name = NameOf(row);
        var kind = row.Kind switch
        {
            RowChangeKind.Made => Texts.Record_Made,
            RowChangeKind.Removed => Texts.Record_Removed,
            _ => Texts.Record_Changed,
        };
        return name.Length == 0 ? words.Format.Say(kind, RecordRowWords.Of(row.Entity)) : words.Format.Say(kind, words.Format.Say(Texts.Record_Named, RecordRowWords.Of(row.Entity), name));
    }

    public IEnumerable<CellView> Cells(RowChange row) => row.Cells
        .Where(c => TrailColumns.IsShown(c.Column))
        .Select(c => (Cell: c, Column: page.Columns.Of(row.Entity, c.Column)))
        .Select(c => new CellView(
            RecordColumnWords.Of(c.Cell.Column),
            row.Kind == RowChangeKind.Made ? null : Value(row, c.Column, c.Cell.Column, c.Cell.Before),
            row.Kind == RowChangeKind.Removed ? null : Value(row, c.Column, c.Cell.Column, c.Cell.After)));

    private string Value(RowChange row, TrailColumn column, string name, string? text) =>
        string.IsNullOrEmpty(text) ? _values.Of(column, text)
        : _documents.Of(row, name, text) ?? (column.Kind == ColumnKind.Document ? _documents.Plain(text) : null) ?? _values.Of(column, text);

    private string Keeping(string said, string since, int years, DateTime? firstUtc)
    {
        var format = words.Format;
        return firstUtc is { } first && format.Calendar.ShopDayOf(first) is var day
            ? $"{format.Say(said, format.Count(years))} {format.Say(since, format.LongDay(day), format.LongDay(Retention.Until(day, years)))}"
            : format.Say(said, format.Count(years));
    }

    private string NameOf(RowChange row)
    {
        if (row.Entity is not (nameof(CareTask) or nameof(Flag)) && row.Cells.FirstOrDefault(c => c.Column is "Tag" or "Name" or "Parameter") is { } named && (named.After ?? named.Before) is { } name)
        {
            return named.Column == "Parameter" ? words.Sentences.Parameter(name) : name;
        }

        // A changed row tells only what changed of it; its key says which it is. A measurement's key goes on with its parameter.
        var parts = row.Key.Split(':');
        var isId = Guid.TryParseExact(parts[0], "D", out var id);
        return isId && page.Tasks.TryGetValue(id, out var task) ? words.Sentences.Task(task.Kind, task.Cause, null)
            : isId && page.Flags.TryGetValue(id, out var flag) ? words.Sentences.Subject(flag.Rule, flag.Parameter)
            : isId && page.Names.TryGetValue(id, out var known) ? known
            : parts.Length > 1 ? words.Sentences.Parameter(parts[1])
            : "";
    }
}

/// <summary>A column of a row.</summary>
/// <param name="Before">Null for a new row.</param>
/// <param name="After">Null for a removed row.</param>
public sealed record CellView(string Name, string? Before, string? After);
