using Microsoft.AspNetCore.Components.Authorization;
using MudBlazor.Services;
using ShopFluids.Core.Board;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Overview;
using ShopFluids.Core.Sumps;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Components.Shared.Loading;
using ShopFluids.Web.Pages.Board.Work;
using ShopFluids.Web.Pages.Record;
using ShopFluids.Web.Pages.Search;
using ShopFluids.Web.Pages.Sheets;
using ShopFluids.Web.Pages.Wall;

namespace ShopFluids.Web.Components;

/// <summary>The desk: pages in a circuit, and the sheets they link to.</summary>
public static class DeskEndpoints
{
    public static IServiceCollection AddDesk(this IServiceCollection services)
    {
        services.AddRazorComponents().AddInteractiveServerComponents();
        services.AddMudServices();
        services.AddCascadingAuthenticationState();
        services.AddScoped<AuthenticationStateProvider, DeskAuthentication>();

        // One for each circuit: it remembers who sits there.
        services.AddScoped<DeskSession>();
        services.AddScoped<WorkActs>();
        services.AddSingleton<Handover>();
        services.AddSingleton<BoardQuery>();
        services.AddSingleton<OpenWorkQuery>();
        services.AddSingleton<ShopOverviewQuery>();
        services.AddSingleton<SumpPageQuery>();
        services.AddSingleton<MachinePageQuery>();
        services.AddSheets();
        services.AddSearch();
        services.AddWall();
        return services;
    }

    public static IEndpointRouteBuilder MapDesk(this IEndpointRouteBuilder endpoints)
    {
        endpoints.MapRazorComponents<App>().AddInteractiveServerRenderMode();
        endpoints.MapSheets();
        endpoints.MapRecordFile();
        endpoints.MapSearch();
        endpoints.MapWall();
        return endpoints;
    }
}
