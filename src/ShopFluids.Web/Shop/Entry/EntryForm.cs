using ShopFluids.Core.Readings;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Shop.Entry;

/// <summary>What was typed on the entry page, as it was typed: shown again whenever the page comes back.</summary>
/// <param name="TakenAt">Empty: now. Otherwise shop time as the browser writes it.</param>
/// <param name="Confirmed">Answers to questions: the field and the value that was asked about.</param>
/// <param name="Again">The field whose value is to be read again.</param>
/// <param name="SavedAt">When Save was pressed, by the tablet's clock, ms since 1970; empty: just now.</param>
/// <param name="Paper">Entered from a paper sheet: 1, or the time on it as the browser writes it. The next sump is opened in the same way.</param>
/// <param name="SentAt">When this was sent, by the same clock.</param>
public sealed record EntryForm(
    Guid ReadingId,
    string TakenAt,
    string Note,
    string Refractometer,
    string PhMeter,
    IReadOnlyDictionary<string, TypedField> Fields,
    IReadOnlySet<string> Confirmed,
    string Again,
    string SavedAt = "",
    string SentAt = "",
    string Paper = "")
{
    public const string SavedAtName = TabletWait.SavedAtName;
    public const string PaperName = "paper";
    public const string SentAtName = TabletWait.SentAtName;

    public const string IdName = "id";
    public const string TakenAtName = "takenAt";
    public const string NoteName = "note";
    public const string PhotoName = "photo";
    public const string RefractometerName = "refractometer";
    public const string PhMeterName = "phMeter";
    public const string ConfirmName = "confirm";
    public const string AgainName = "again";

    /// <summary>Null where none came along.</summary>
    public EntryPhoto? Photo { get; init; }

    /// <summary>One was chosen, and no page can hold it: it has to be chosen again.</summary>
    public bool HadPhoto { get; init; }

    public static string ValueName(string key) => $"value-{key}";

    /// <summary>Of the answer to a question: read it again.</summary>
    public static string AgainId(string key) => $"again-{key}";

    public static string WayName(string key) => $"way-{key}";

    public static string TemperatureName(string key) => $"temperature-{key}";

    /// <summary>The empty page: the instruments are those that the sump was last read with.</summary>
    public static EntryForm Fresh(EntryPage page, Guid readingId) => new(
        readingId,
        "",
        "",
        EntryKit.Usual(page, EntryKit.IsRefractometer),
        EntryKit.Usual(page, EntryKit.IsForPh),
        new Dictionary<string, TypedField>(StringComparer.Ordinal),
        new HashSet<string>(StringComparer.Ordinal),
        "");

    /// <param name="freshId">Stands in where no id was sent.</param>
    public static EntryForm Read(FormPost post, EntryPage page, Guid freshId) => new(
        Guid.TryParse(post.Text(IdName), out var id) && id != Guid.Empty ? id : freshId,
        post.Text(TakenAtName),
        post.Text(NoteName).ReplaceLineEndings("\n"),
        post.Text(RefractometerName),
        post.Text(PhMeterName),
        page.Fields.ToDictionary(f => f.Key, f => new TypedField(post.Text(ValueName(f.Key)), post.Text(WayName(f.Key)), post.Text(TemperatureName(f.Key))), StringComparer.Ordinal),
        post.Form[ConfirmName].OfType<string>().ToHashSet(StringComparer.Ordinal),
        post.Text(AgainName),
        post.Text(SavedAtName),
        post.Text(SentAtName),
        post.Text(PaperName))
    {
        HadPhoto = post.File(PhotoName) is not null || post.LeftBehindFile(PhotoName),
    };

    /// <summary>How long the reading waited on the tablet.</summary>
    public TimeSpan Waited => TabletWait.Between(SavedAt, SentAt);

    public TypedField Of(EntryField field) => Fields.GetValueOrDefault(field.Key) ?? TypedField.Nothing;

    /// <summary>The answer that keeps an unlikely value; another value or way is asked about anew.</summary>
    public string ConfirmationOf(EntryField field)
    {
        var typed = Of(field);
        return $"{field.Key}={typed.Value};{typed.Way}";
    }

    public bool IsConfirmed(EntryField field) => Confirmed.Contains(ConfirmationOf(field));

    public bool IsFromPaper => Paper.Length > 0;

    /// <summary>The same with one value taken out, to be read again.</summary>
    public EntryForm Without(string key) => this with
    {
        Fields = Fields.ToDictionary(f => f.Key, f => f.Key == key ? f.Value with { Value = "" } : f.Value, StringComparer.Ordinal),
    };
}

/// <param name="Way">Method and unit; empty: the usual one.</param>
public sealed record TypedField(string Value, string Way, string Temperature)
{
    public static TypedField Nothing { get; } = new("", "", "");
}
