using System.Text.Json;
using Microsoft.AspNetCore.Diagnostics.HealthChecks;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Startup.Health;

/// <summary>For whatever watches over the process. No sign-in; says what is well and nothing about the shop.</summary>
internal static class HealthEndpoints
{
    private const string Ready = "ready";
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(5);

    public static IServiceCollection AddHealth(this IServiceCollection services)
    {
        services.AddHealthChecks()
            .AddCheck<DatabaseCheck>("database", tags: [Ready], timeout: Patience)
            .AddCheck<DiskCheck>("disk", tags: [Ready], timeout: Patience);
        return services;
    }

    public static IEndpointRouteBuilder MapHealth(this IEndpointRouteBuilder app)
    {
        app.MapHealthChecks("/health/live", new HealthCheckOptions { Predicate = _ => false, ResponseWriter = WriteAsync })
            .AllowAnonymous().WithMetadata(new PassesFirstRun());
        app.MapHealthChecks("/health/ready", new HealthCheckOptions { Predicate = c => c.Tags.Contains(Ready), ResponseWriter = WriteAsync })
            .AllowAnonymous().WithMetadata(new PassesFirstRun());
        return app;
    }

    private static Task WriteAsync(HttpContext http, HealthReport report)
    {
        http.Response.ContentType = "application/json";
        var checks = report.Entries.ToDictionary(e => e.Key, e => e.Value.Description ?? Word(e.Value.Status));
        return http.Response.WriteAsync(JsonSerializer.Serialize(new { status = Word(report.Status), checks }), http.RequestAborted);
    }

    private static string Word(HealthStatus status) => status switch
    {
        HealthStatus.Healthy => "well",
        HealthStatus.Degraded => "poor",
        _ => "unwell",
    };
}
