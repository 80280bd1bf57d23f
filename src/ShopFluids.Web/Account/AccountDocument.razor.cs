using Microsoft.AspNetCore.Components;
using ShopFluids.Web.Shop;

namespace ShopFluids.Web.Account;

public partial class AccountDocument
{
    [Parameter, EditorRequired] public required string Title { get; set; }

    [Parameter] public string? Subtitle { get; set; }

    /// <summary>Another theme than the person's own.</summary>
    [Parameter] public string? ChosenTheme { get; set; }

    /// <summary>One more style sheet.</summary>
    [Parameter] public string? Style { get; set; }

    [Parameter] public string? Script { get; set; }

    /// <summary>Where the script tells how the tablet fares.</summary>
    [Parameter] public string? Contact { get; set; }

    [Parameter, EditorRequired] public required RenderFragment ChildContent { get; set; }

    [Inject] public required IHttpContextAccessor Http { get; init; }

    [Inject] public required ShopAssets Files { get; init; }

    private string BasePath => Http.HttpContext?.Request.PathBase.Value ?? "";

    private string Theme => ChosenTheme ?? Http.HttpContext?.User.ChosenTheme() ?? "light";

    private string File(string file) => $"{BasePath}/{Files.Route(file)}";
}
