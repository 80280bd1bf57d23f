using ShopFluids.Core.Machines;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Pages.Setup.Fields;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Basics;

/// <summary>An area as it is being typed.</summary>
public sealed class AreaDraft(Guid id)
{
    public Guid Id { get; } = id;

    public string Name { get; set; } = "";

    public NumberBox WalkOrder { get; } = new();

    /// <summary>Every field, in the order of the form.</summary>
    public IReadOnlyList<DraftLine> Lines => [new(Texts.FieldName_Name, Name), new(Texts.FieldName_WalkOrder, WalkOrder.Text)];

    /// <summary>An area as it is set up.</summary>
    public static AreaDraft Of(Area area, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(area);
        var draft = new AreaDraft(area.Id) { Name = area.Name };
        draft.WalkOrder.Show(area.WalkOrder, format);
        return draft;
    }
}
