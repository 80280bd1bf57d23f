using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.StaticAssets;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Web.Settings;
using ShopFluids.Web.Startup;

namespace ShopFluids.Architecture.Tests;

/// <summary>Every address of the running program needs a sign-in, but for these.</summary>
public sealed class EndpointTests
{
    private static readonly string[] OpenToAll =
    [
        "/account/first-run", // Until the first account is made; needs the code printed at start.
        "/account/not-allowed", // Says that something is not allowed.
        "/account/sign-in",
        "/account/sign-out", // Signing out twice is no fault.
        "/account/station", // Tiles and PINs: only for a browser with a station's cookie.
        "/account/station/enrol", // Needs the code that a supervisor was shown.
        "/account/station/lock", // Locking twice is no fault.
        "/api/v1/stations/contact", // A tablet tells how it fares: only with a station's cookie.
        "/board/wall", // For whoever is signed in, or with a display's cookie.
        "/board/wall/open", // Needs the secret of a display's link.
        "/board/wall/turn/{turn:int:min(0)}", // As the wall.
        "/health/live", // For whoever watches the process.
        "/health/ready",
        "/not-found", // Says that there is no such page.
    ];

    [Fact]
    public async Task Endpoints_OpenToAll_AreTheAgreedOnes()
    {
        await using var app = Build();

        var open = Endpoints(app).Where(e => e.Metadata.GetMetadata<IAllowAnonymous>() is not null).Select(e => "/" + e.RoutePattern.RawText?.TrimStart('/'));

        Assert.Equal(OpenToAll, open.Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Endpoints_ThatSayNothing_FallBackToASignIn()
    {
        await using var app = Build();

        var fallback = await app.Services.GetRequiredService<IAuthorizationPolicyProvider>().GetFallbackPolicyAsync();

        Assert.NotNull(fallback);
        Assert.Contains(fallback.Requirements, r => r is Microsoft.AspNetCore.Authorization.Infrastructure.DenyAnonymousAuthorizationRequirement);
        Assert.Contains(Endpoints(app), e => e.Metadata.GetMetadata<IAuthorizeData>() is not null);
    }

    // Who changes something says so by a policy of its own or of its group; reading alone may be left to the group.
    [Fact]
    public async Task Endpoints_ThatChangeSomething_NameAPolicy()
    {
        await using var app = Build();

        var unnamed = Endpoints(app)
            .Where(e => e.RoutePattern.RawText?.Contains("_blazor", StringComparison.Ordinal) is not true)
            .Where(e => e.Metadata.GetMetadata<IHttpMethodMetadata>()?.HttpMethods.Any(m => !HttpMethods.IsGet(m) && !HttpMethods.IsHead(m)) == true)
            .Where(e => e.Metadata.GetMetadata<IAllowAnonymous>() is null && e.Metadata.GetOrderedMetadata<IAuthorizeData>().All(a => a.Policy is null && a.Roles is null))
            .Select(e => e.RoutePattern.RawText);

        Assert.Empty(unnamed);
    }

    private static List<RouteEndpoint> Endpoints(WebApplication app)
    {
        var endpoints = ((IEndpointRouteBuilder)app).DataSources.SelectMany(s => s.Endpoints).OfType<RouteEndpoint>()
            .Where(e => e.Metadata.GetMetadata<StaticAssetDescriptor>() is null)
            .ToList();
        Assert.NotEmpty(endpoints);
        return endpoints;
    }

    // Built, never started: nothing connects.
    private static WebApplication Build() => ShopApp.Build(new ShopSettings
    {
        DataFolder = Path.GetTempPath(),
        Engine = DatabaseEngine.Sqlite,
        ConnectionString = "Data Source=none.db",
        Urls = ["http://localhost:0"],
        BasePath = "",
        TimeZoneId = "Etc/UTC",
    });
}
