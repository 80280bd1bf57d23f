using System.IO.Compression;
using Microsoft.AspNetCore.ResponseCompression;
using Microsoft.Extensions.DependencyInjection.Extensions;
using ShopFluids.Core.DemoData;
using ShopFluids.Web.Account;
using ShopFluids.Web.Account.Stations;
using ShopFluids.Web.Api;
using ShopFluids.Web.Components;
using ShopFluids.Web.Escalations;
using ShopFluids.Web.Settings;
using ShopFluids.Web.Shop;
using ShopFluids.Web.Startup.Health;

namespace ShopFluids.Web.Startup;

/// <summary>Puts the web host together. Tests make the same host and change what they must.</summary>
public static class ShopApp
{
    /// <param name="settings">Checked settings.</param>
    /// <param name="change">For tests: called last, before the host is built.</param>
    public static WebApplication Build(ShopSettings settings, Action<WebApplicationBuilder>? change = null)
    {
        var builder = WebApplication.CreateBuilder(new WebApplicationOptions
        {
            // The program may be started from anywhere; its pages lie beside it.
            ContentRootPath = AppContext.BaseDirectory,
            ApplicationName = typeof(ShopApp).Assembly.GetName().Name,
        });
        // An unpublished build finds its style sheets through a manifest, in any environment; published, there is none.
        builder.WebHost.UseStaticWebAssets();
        builder.WebHost.UseUrls([.. settings.Urls]);
        builder.WebHost.ConfigureKestrel(kestrel => kestrel.AddServerHeader = false);
        builder.AddLogs();
        builder.Services.AddShopFluidsData(settings);
        builder.Services.AddShopFeatures();
        builder.Services.AddSingleton<DemoAccounts>();
        builder.Services.TryAddSingleton<DemoShop>();
        builder.Services.AddSingleton<DemoStart>();
        builder.Services.AddHostedService<OverdueTimer>();
        builder.Services.AddHostedService<CareTimer>();
        builder.Services.AddEscalations(settings);
        // Styles and scripts alone: in a page that repeats what was typed, compression could give a secret away.
        builder.Services.AddResponseCompression(o => (o.EnableForHttps, o.MimeTypes) = (true, ["text/css", "text/javascript"]));
        // A tablet loads each once and keeps it for a year: small counts, the moment it takes does not.
        builder.Services.Configure<BrotliCompressionProviderOptions>(o => o.Level = CompressionLevel.Optimal);
        builder.Services.Configure<GzipCompressionProviderOptions>(o => o.Level = CompressionLevel.Optimal);
        builder.Services.AddHttpContextAccessor();
        builder.Services.AddSingleton<SiteCulture>();
        builder.Services.AddAccounts();
        builder.Services.AddApi();
        builder.Services.AddShopPages();
        builder.Services.AddDesk();
        builder.Services.AddHealth();
        builder.Services.AddProxyHeaders(settings);
        change?.Invoke(builder);
        var app = builder.Build();
        app.UseEverything(settings);
        return app;
    }

    private static void UseEverything(this WebApplication app, ShopSettings settings)
    {
        var culture = app.Services.GetRequiredService<SiteCulture>();
        app.UseForwardedHeaders();
        if (settings.BasePath.Length > 0)
        {
            app.UsePathBase(settings.BasePath);
        }

        app.UseSecurityHeaders();
        app.UseResponseCompression();
        app.UseFailurePage();
        app.UseRouting();
        app.UseFirstRun();
        app.UseAuthentication();
        app.UseStationLimits();
        app.UseAuthorization();
        app.Use(culture.InvokeAsync);
        app.UseAntiforgery();
        app.MapStaticAssets().AllowAnonymous().WithMetadata(new PassesFirstRun());
        app.MapHealth();
        app.MapAccount();
        app.MapApi();
        app.MapShopPages();
        app.MapDesk();
    }
}
