using Microsoft.AspNetCore.Components;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Pages.Sheets;

public sealed partial class SheetRefused
{
    [CascadingParameter]
    public required HttpContext Http { get; set; }

    [Parameter, EditorRequired]
    public required string Sentence { get; set; }

    private string Theme => Http.User.ChosenTheme();

    private string Base => Http.Request.PathBase.Value ?? "";
}
