using ShopFluids.Core.Setup;
using ShopFluids.Core.Water;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Pages.Setup.Fields;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Basics;

/// <summary>A water as it is being typed.</summary>
public sealed class WaterDraft(Guid id)
{
    public Guid Id { get; } = id;

    public string Name { get; set; } = "";

    public NumberBox Zero { get; } = new();

    public NumberBox Hardness { get; } = new(QuantityKind.Hardness);

    public NumberBox Nitrate { get; } = new();

    public NumberBox Nitrite { get; } = new();

    /// <summary>Every field, in the order of the form.</summary>
    public IReadOnlyList<DraftLine> Lines =>
    [
        new(Texts.FieldName_Name, Name),
        new(Texts.FieldName_ZeroBrix, Zero.Text),
        new(Texts.Parameter_Hardness, Hardness.Text),
        new(Texts.Parameter_Nitrate, Nitrate.Text),
        new(Texts.Parameter_Nitrite, Nitrite.Text),
    ];

    /// <summary>A water as it is set up.</summary>
    public static WaterDraft Of(WaterSource water, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(water);
        var draft = new WaterDraft(water.Id) { Name = water.Name };
        draft.Zero.Show(water.ZeroBrix, format);
        draft.Hardness.Show(water.HardnessMgPerLitre, format);
        draft.Nitrate.Show(water.NitrateMgPerLitre, format);
        draft.Nitrite.Show(water.NitriteMgPerLitre, format);
        return draft;
    }

    public WaterData Read(FormReader read)
    {
        ArgumentNullException.ThrowIfNull(read);
        return new(
            read.Text("name", Name),
            read.Number("zeroBrix", Zero),
            read.OptionalNumber("hardness", Hardness),
            read.OptionalNumber("nitrate", Nitrate),
            read.OptionalNumber("nitrite", Nitrite));
    }
}
