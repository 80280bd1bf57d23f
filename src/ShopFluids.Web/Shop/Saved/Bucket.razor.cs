using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Shop.Saved;

public partial class Bucket
{
    [Parameter, EditorRequired] public required string Label { get; set; }

    [Parameter] public bool HasConcentrate { get; set; }
}
