using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Shop.Entry;

public partial class TakenAtField
{
    [Parameter, EditorRequired] public required EntryView View { get; set; }

    [Parameter, EditorRequired] public required string? Fault { get; set; }
}
