using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Fluids;

namespace ShopFluids.Web.Shop.Saved;

public partial class AdditionFields
{
    private Guid? _chosen;

    [Parameter, EditorRequired] public required SavedView View { get; set; }

    private string? LotFault => View.FaultAt(AdditionForm.LotName);

    protected override void OnParametersSet() =>
        _chosen = Guid.TryParse(View.Addition.Lot, out var typed) ? typed : View.Faults.Count == 0 ? View.Page.Lots.For(0)?.Id : null;
}
