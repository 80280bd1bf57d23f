using Microsoft.AspNetCore.Components;
using ShopFluids.Web.Shop;

namespace ShopFluids.Web.Pages.Wall;

public sealed partial class WallRefused
{
    [CascadingParameter]
    public required HttpContext Http { get; set; }

    [Inject]
    public required ShopAssets Marked { get; init; }

    private string File(string file) => $"{Http.Request.PathBase.Value}/{Marked.Route(file)}";
}
