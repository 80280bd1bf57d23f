using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Pages.Search;

public sealed partial class SearchList
{
    [Parameter, EditorRequired]
    public required SearchView View { get; set; }
}
