using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Fluids;

namespace ShopFluids.Web.Shop.Saved;

public partial class AdditionFields
{
    private static readonly string[] Boxes = [AdditionForm.WaterName, AdditionForm.ConcentrateName, AdditionForm.RemovedName, AdditionForm.LotName, AdditionForm.OverrideName];
    private Guid? _chosen;

    [Parameter, EditorRequired] public required SavedView View { get; set; }

    private string? LotFault => View.FaultAt(AdditionForm.LotName);

    private string? OverrideFault => View.FaultAt(AdditionForm.OverrideName);

    // The page opens where something is to be mended. What is asked about stands over the boxes; the answer itself takes no cursor, so that nobody gives it by a key too many.
    private string? Cursor => Boxes.FirstOrDefault(View.Faults.ContainsKey) ?? (View.Questions.Count > 0 ? Boxes[0] : null);

    // What is wrong with no box of this form, such as the moment.
    private string Others => string.Join(' ', View.Faults.Where(f => !Boxes.Contains(f.Key, StringComparer.Ordinal)).Select(f => f.Value));

    protected override void OnParametersSet() =>
        _chosen = Guid.TryParse(View.Addition.Lot, out var typed) ? typed : View.Faults.Count + View.Questions.Count == 0 ? View.Page.Lots.For(0)?.Id : null;
}
