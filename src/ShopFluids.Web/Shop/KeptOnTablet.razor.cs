using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Shop;

public partial class KeptOnTablet
{
    [Parameter, EditorRequired] public required ShopLinks Links { get; set; }
}
