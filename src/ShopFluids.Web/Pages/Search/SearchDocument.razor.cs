using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Search;
using ShopFluids.Web.Account;
using ShopFluids.Web.Shop;

namespace ShopFluids.Web.Pages.Search;

public sealed partial class SearchDocument
{
    [CascadingParameter]
    public required HttpContext Http { get; set; }

    [Inject]
    public required ShopAssets Marked { get; init; }

    [Parameter, EditorRequired]
    public required SearchView View { get; set; }

    private string Theme => Http.User.ChosenTheme();

    private string Base => Http.Request.PathBase.Value ?? "";

    private string File(string file) => Marked.Route(file);

    // A sump's own line says where it is.
    private static bool HasPlaces(SearchHit hit) => hit.Group is SearchGroup.Machines or SearchGroup.Fluids or SearchGroup.Lots && hit.SumpTags.Count > 0;
}
