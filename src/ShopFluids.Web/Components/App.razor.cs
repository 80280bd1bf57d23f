using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using ShopFluids.Core.Setup;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Shared.Loading;

namespace ShopFluids.Web.Components;

public sealed partial class App
{
    private static readonly InteractiveServerRenderMode InCircuit = new(prerender: false);
    private static readonly InteractiveServerRenderMode DrawnAhead = new(prerender: true);
    private string _theme = "light";
    private string _timeZone = "Etc/UTC";

    [CascadingParameter]
    public required HttpContext Http { get; set; }

    [Inject]
    public required SetupCache Setups { get; init; }

    private static string Language => CultureInfo.CurrentUICulture.TwoLetterISOLanguageName;

    private InteractiveServerRenderMode Island => Http.GetEndpoint()?.Metadata.GetMetadata<DrawnAheadAttribute>() is null ? InCircuit : DrawnAhead;

    private string Base => Http.Request.PathBase.Add("/").Value ?? "/";

    protected override async Task OnInitializedAsync()
    {
        _theme = Http.User.ChosenTheme();
        _timeZone = (await Setups.CurrentAsync(Http.RequestAborted)).Site?.TimeZoneId ?? _timeZone;
    }
}
