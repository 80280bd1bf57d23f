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
    public string Unit => Enum.TryParse<InstrumentKind>(Kind, out var kind) ? UnitOf(kind) : "";

    public static IReadOnlyList<Choice> Kinds => [.. Enum.GetValues<InstrumentKind>().Select(k => new Choice(k.ToString(), KindWord(k)))];

    public static IReadOnlyList<Choice> Compensation => [new(CompensationName, Texts.Setup_CompensatesItself)];

    public static string KindWord(InstrumentKind kind) => kind switch
    {
        InstrumentKind.Refractometer => Texts.Setup_KindRefractometer,
        InstrumentKind.PhMeter => Texts.Setup_KindPhMeter,
        InstrumentKind.PhStrips => Texts.Setup_KindPhStrips,
        InstrumentKind.Rule => Texts.Setup_KindRule,
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "There is no text for this kind of instrument."),
    };

    public static string Amount(decimal value, InstrumentKind kind, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        return $"{QuantityInput.Write(value, QuantityKind.Number, format.Units, format.Culture)} {UnitOf(kind)}";
    }

    private static string UnitOf(InstrumentKind kind) => kind switch
    {
        InstrumentKind.Refractometer => "Brix",
        InstrumentKind.Rule => "mm",
        _ => "pH",
    };
}
