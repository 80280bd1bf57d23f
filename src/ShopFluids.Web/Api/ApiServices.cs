using ShopFluids.Web.Account;
using ShopFluids.Web.Api.Access;
using ShopFluids.Web.Api.Additions;
using ShopFluids.Web.Api.Bench;
using ShopFluids.Web.Api.CleanOuts;
using ShopFluids.Web.Api.Doses;
using ShopFluids.Web.Api.Json;
using ShopFluids.Web.Api.Readings;
using ShopFluids.Web.Api.Round;
using ShopFluids.Web.Api.Rules;
using ShopFluids.Web.Api.Shutdowns;
using ShopFluids.Web.Api.Slides;
using ShopFluids.Web.Api.Sumps;
using ShopFluids.Web.Api.Work;

namespace ShopFluids.Web.Api;

/// <summary>The HTTP API: /api/v1, described at /api/v1/openapi.json.</summary>
internal static class ApiServices
{
    private const string Version = "v1";

    public static IServiceCollection AddApi(this IServiceCollection services) => services
        .AddProblemDetails()
        .AddOpenApi(Version, o => o.ShouldInclude = d => d.RelativePath?.StartsWith($"api/{Version}/", StringComparison.Ordinal) == true)
        .AddSingleton<ApiSentences>();

    public static IEndpointRouteBuilder MapApi(this IEndpointRouteBuilder app)
    {
        app.MapOpenApi("/api/{documentName}/openapi.json").RequireAuthorization(Policies.CanRead);
        var api = app.MapGroup($"/api/{Version}").RequireAuthorization(Policies.CanRead).AddEndpointFilter(ApiRefusals.RequireOwnHeader);
        api.MapReadings();
        api.MapAdditions();
        api.MapDoses();
        api.MapSumps();
        api.MapWork();
        api.MapSlides();
        api.MapCleanOutApi();
        api.MapShutdowns();
        api.MapRoundApi();
        api.MapRules();
        api.MapBench();
        return app;
    }
}
