using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Shop.Saved;

public partial class PossibleCauses
{
    [Parameter, EditorRequired] public required SavedView View { get; set; }
}
