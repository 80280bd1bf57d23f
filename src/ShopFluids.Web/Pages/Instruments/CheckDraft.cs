using ShopFluids.Core.Instruments;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.InstrumentCheck;
using ShopFluids.Web.Account;
using ShopFluids.Web.Pages.Setup.Fields;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Instruments;

/// <summary>A check as it is being typed. Standards are in the unit of the instrument's scale, whatever a person prefers elsewhere.</summary>
public sealed class CheckDraft(Guid id, InstrumentKind kind, DateOnly today)
{
    private const string OnScale = "scale";
    private const string InMillivolts = "mv";
    private const string Water = "0";

    public Guid Id { get; } = id;

    public string CheckedOn { get; set; } = DayInput.Write(today);

    /// <summary>What a pH meter shows: its pH, or the voltage of its electrode.</summary>
    public string Shows { get; set; } = OnScale;

    public NumberBox FirstStandard { get; } = new() { Text = kind == InstrumentKind.Refractometer ? Water : "" };

    public NumberBox FirstShown { get; } = new();

    public NumberBox SecondStandard { get; } = new();

    public NumberBox SecondShown { get; } = new();

    public NumberBox Celsius { get; } = new();

    public string Note { get; set; } = "";

    public bool IsPh => kind == InstrumentKind.PhMeter;

    public bool IsInMillivolts => IsPh && Shows == InMillivolts;

    public string StandardUnit => IsPh ? "pH" : "Brix";

    public string ShownUnit => IsInMillivolts ? "mV" : StandardUnit;

    public static IReadOnlyList<Choice> Ways => [new(OnScale, Texts.Instrument_ShowsPh), new(InMillivolts, Texts.Instrument_ShowsMillivolts)];

    /// <summary>What is typed, as far as it can be read; the reader holds the rest.</summary>
    public NoteInstrumentCheck Read(FormReader read, Guid instrumentId)
    {
        ArgumentNullException.ThrowIfNull(read);
        return new(Id, instrumentId, read.Day("checkedOn", CheckedOn))
        {
            First = Point(read, "first", FirstStandard, FirstShown),
            Second = Point(read, "second", SecondStandard, SecondShown),
            IsInMillivolts = IsInMillivolts,
            Celsius = IsInMillivolts ? read.OptionalNumber("celsius", Celsius) : null,
            Note = Note,
        };
    }

    // Water stands ready in its box: it is no point as long as nothing was read in it.
    private CheckPoint? Point(FormReader read, string name, NumberBox standard, NumberBox shown) =>
        shown.IsEmpty && (standard.IsEmpty || (!IsPh && standard.Text == Water)) ? null : new(read.Number($"{name}Standard", standard), read.Number($"{name}Shown", shown));
}
