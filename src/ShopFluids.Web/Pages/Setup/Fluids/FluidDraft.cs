using ShopFluids.Core.Fluids;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Pages.Setup.Fields;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Fluids;

/// <summary>A fluid as it is being typed from its data sheet.</summary>
public sealed class FluidDraft(Guid id)
{
    public Guid Id { get; } = id;

    public string Name { get; set; } = "";

    public string Kind { get; set; } = "";

    public NumberBox RefractometerFactor { get; } = new();

    public NumberBox TitrationFactor { get; } = new();

    public NumberBox TargetLow { get; } = new();

    public NumberBox TargetHigh { get; } = new();

    public NumberBox Target { get; } = new();

    public NumberBox PremixMinimum { get; } = new();

    public NumberBox PremixMaximum { get; } = new();

    public NumberBox ShelfLife { get; } = new();

    public NumberBox OpenedLife { get; } = new();

    public string WasteCode { get; set; } = "";

    public string SafetySheetPlace { get; set; } = "";

    public string Biocide { get; set; } = "";

    public static IReadOnlyList<Choice> Kinds => [.. Enum.GetValues<FluidKind>().Select(k => new Choice(k.ToString(), KindWord(k)))];

    public static string KindWord(FluidKind kind) => kind switch
    {
        FluidKind.StraightOil => Texts.Setup_FluidStraightOil,
        FluidKind.SolubleOil => Texts.Setup_FluidSolubleOil,
        FluidKind.SemiSynthetic => Texts.Setup_FluidSemiSynthetic,
        FluidKind.Synthetic => Texts.Setup_FluidSynthetic,
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "There is no text for this kind of fluid."),
    };

    public FluidData Read(FormReader read)
    {
        ArgumentNullException.ThrowIfNull(read);
        return new(
            read.Text("name", Name),
            read.Choice<FluidKind>("kind", Kind),
            read.Number("refractometerFactor", RefractometerFactor),
            read.OptionalNumber("titrationFactor", TitrationFactor),
            read.Number("targetPercent", Target),
            read.Number("premixMinimum", PremixMinimum),
            read.Number("premixMaximum", PremixMaximum),
            read.WholeNumber("shelfLifeDays", ShelfLife),
            Given(WasteCode),
            Given(SafetySheetPlace),
            Given(Biocide),
            OpenedLife.IsEmpty ? null : read.WholeNumber("openedLifeDays", OpenedLife));
    }

    private static string? Given(string text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();
}
