using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Shop.Entry;

public partial class EntrySlides
{
    [Parameter, EditorRequired] public required EntryView View { get; set; }
}
