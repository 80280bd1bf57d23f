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

    /// <summary>Every field that can be changed later, in the order of the form.</summary>
    public IReadOnlyList<DraftLine> Lines =>
    [
        new(Texts.FieldName_Name, Name),
        new(Texts.Setup_FluidKind, Kinds.FirstOrDefault(k => k.Value == Kind)?.Text ?? ""),
        new(Texts.FieldName_RefractometerFactor, RefractometerFactor.Text),
        new(Texts.FieldName_TitrationFactor, TitrationFactor.Text),
        new(Texts.FieldName_ShelfLife, ShelfLife.Text),
        new(Texts.FieldName_OpenedLife, OpenedLife.Text),
        new(Texts.FieldName_TargetPercent, Target.Text),
        new(Texts.FieldName_PremixMinimum, PremixMinimum.Text),
        new(Texts.FieldName_PremixMaximum, PremixMaximum.Text),
        new(Texts.FieldName_SafetySheetPlace, SafetySheetPlace),
        new(Texts.FieldName_WasteCode, WasteCode),
        new(Texts.FieldName_Biocide, Biocide),
    ];

    /// <summary>A fluid as it is set up.</summary>
    public static FluidDraft Of(Fluid fluid, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(fluid);
        var draft = new FluidDraft(fluid.Id)
        {
            Name = fluid.Name,
            Kind = fluid.Kind.ToString(),
            WasteCode = fluid.WasteCode ?? "",
            SafetySheetPlace = fluid.SafetySheetPlace ?? "",
            Biocide = fluid.Biocide ?? "",
        };
        draft.RefractometerFactor.Show(fluid.RefractometerFactor, format);
        draft.TitrationFactor.Show(fluid.TitrationFactor, format);
        draft.Target.Show(fluid.TargetPercent, format);
        draft.PremixMinimum.Show(fluid.PremixMinimumPercent, format);
        draft.PremixMaximum.Show(fluid.PremixMaximumPercent, format);
        draft.ShelfLife.Show(fluid.ShelfLifeDays, format);
        draft.OpenedLife.Show(fluid.OpenedLifeDays, format);
        return draft;
    }

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
