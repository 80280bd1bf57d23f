using System.Globalization;
using Microsoft.AspNetCore.Components;
using ShopFluids.Web.Shop;

namespace ShopFluids.Web.Pages.Wall;

public sealed partial class WallDocument
{
    private const int SecondsWithoutScript = 30;

    [CascadingParameter]
    public required HttpContext Http { get; set; }

    [Inject]
    public required ShopAssets Marked { get; init; }

    [Parameter, EditorRequired]
    public required WallView View { get; set; }

    private string Base => Http.Request.PathBase.Value ?? "";

    private string Next => string.Create(CultureInfo.InvariantCulture, $"{SecondsWithoutScript};url={Base}{WallEndpoints.Path}?turn={(View.TurnNumber + 1) % View.Wall.Turns.Count}");

    private string File(string file) => $"{Base}/{Marked.Route(file)}";
}
