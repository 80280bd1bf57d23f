using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Account;

public partial class AccountDocument
{
    [Parameter, EditorRequired] public required string Title { get; set; }

    [Parameter] public string? Subtitle { get; set; }

    [Parameter, EditorRequired] public required RenderFragment ChildContent { get; set; }

    [Inject] public required IHttpContextAccessor Http { get; init; }

    private string BasePath => Http.HttpContext?.Request.PathBase.Value ?? "";

    private string Theme => Http.HttpContext?.User.ChosenTheme() ?? "light";
}
