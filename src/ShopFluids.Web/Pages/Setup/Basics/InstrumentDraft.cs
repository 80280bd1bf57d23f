using ShopFluids.Core.Instruments;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Pages.Setup.Fields;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Basics;

/// <summary>An instrument as it is being typed. Resolution and accuracy are in the unit of its scale, whatever a person prefers elsewhere.</summary>
public sealed class InstrumentDraft(Guid id)
{
    private const string CompensationName = "compensates";
    private const string OutOfUseName = "outOfUse";

    public Guid Id { get; } = id;

    public string Kind { get; set; } = "";

    public string Tag { get; set; } = "";

    public NumberBox Resolution { get; } = new();

    public NumberBox Accuracy { get; } = new();

    public string CheckedOn { get; set; } = "";

    public NumberBox CheckEvery { get; } = new();

    public IReadOnlySet<string> Compensates { get; set; } = new HashSet<string>(StringComparer.Ordinal);

    public bool CompensatesTemperature => Compensates.Contains(CompensationName);

    public IReadOnlySet<string> Use { get; set; } = new HashSet<string>(StringComparer.Ordinal);

    public bool IsInUse => !Use.Contains(OutOfUseName);

    /// <summary>Empty until the kind is chosen.</summary>
    public string Unit => Enum.TryParse<InstrumentKind>(Kind, out var kind) ? InstrumentSentences.Unit(kind) : "";

    /// <summary>An instrument as it is set up.</summary>
    public static InstrumentDraft Of(Instrument instrument, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(instrument);
        var draft = new InstrumentDraft(instrument.Id)
        {
            Kind = instrument.Kind.ToString(),
            Tag = instrument.Tag,
            Compensates = new HashSet<string>(instrument.CompensatesTemperature ? [CompensationName] : [], StringComparer.Ordinal),
            Use = new HashSet<string>(instrument.OutOfUseSince is null ? [] : [OutOfUseName], StringComparer.Ordinal),
        };
        draft.Resolution.Show(instrument.Resolution, format);
        draft.Accuracy.Show(instrument.Accuracy, format);
        draft.CheckEvery.Show(instrument.CheckEveryDays, format);
        return draft;
    }

    /// <summary>Every field that can be changed later, in the order of the form.</summary>
    public IReadOnlyList<DraftLine> Lines =>
    [
        new(Texts.FieldName_Resolution, Resolution.Text),
        new(Texts.FieldName_Accuracy, Accuracy.Text),
        new(Texts.FieldName_CheckEvery, CheckEvery.Text),
        new(Texts.Setup_Compensates, CompensatesTemperature ? Texts.Setup_Yes : Texts.Setup_No),
        new(Texts.Setup_OutOfUse, IsInUse ? Texts.Setup_No : Texts.Setup_Yes),
    ];

    public static IReadOnlyList<Choice> Kinds => [.. Enum.GetValues<InstrumentKind>().Select(k => new Choice(k.ToString(), InstrumentSentences.Kind(k)))];

    public static IReadOnlyList<Choice> Uses => [new(OutOfUseName, Texts.Setup_OutOfUseChoice)];

    public static IReadOnlyList<Choice> Compensation => [new(CompensationName, Texts.Setup_CompensatesItself)];
}
