using Microsoft.AspNetCore.Components;
using ShopFluids.Web.Shop;

namespace ShopFluids.Web.Account;

public partial class AccountDocument
{
    [Parameter, EditorRequired] public required string Title { get; set; }

    [Parameter] public string? Subtitle { get; set; }

    [Parameter, EditorRequired] public required RenderFragment ChildContent { get; set; }

    [Inject] public required IHttpContextAccessor Http { get; init; }

    [Inject] public required ShopAssets Files { get; init; }

    private string BasePath => Http.HttpContext?.Request.PathBase.Value ?? "";

    private string Theme => Http.HttpContext?.User.ChosenTheme() ?? "light";

    private string File(string file) => $"{BasePath}/{Files.Route(file)}";
}
