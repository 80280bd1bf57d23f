using ShopFluids.Core.Instruments;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Pages.Setup.Fields;

namespace ShopFluids.Web.Pages.Setup.Basics;

/// <summary>An instrument as it is being typed. Resolution and accuracy are in the unit of its scale, whatever a person prefers elsewhere.</summary>
public sealed class InstrumentDraft(Guid id)
{
    private const string CompensationName = "compensates";

    public Guid Id { get; } = id;

    public string Kind { get; set; } = "";

    public string Tag { get; set; } = "";

    public NumberBox Resolution { get; } = new();

    public NumberBox Accuracy { get; } = new();

    public string CheckedOn { get; set; } = "";

    public NumberBox CheckEvery { get; } = new();

    public IReadOnlySet<string> Compensates { get; set; } = new HashSet<string>(StringComparer.Ordinal);

    public bool CompensatesTemperature => Compensates.Contains(CompensationName);

    /// <summary>Empty until the kind is chosen.</summary>
    public string Unit => Enum.TryParse<InstrumentKind>(Kind, out var kind) ? InstrumentSentences.Unit(kind) : "";

    public static IReadOnlyList<Choice> Kinds => [.. Enum.GetValues<InstrumentKind>().Select(k => new Choice(k.ToString(), InstrumentSentences.Kind(k)))];

    public static IReadOnlyList<Choice> Compensation => [new(CompensationName, Texts.Setup_CompensatesItself)];
}
