using Microsoft.Extensions.Diagnostics.HealthChecks;
using ShopFluids.Web.Settings;

namespace ShopFluids.Web.Startup.Health;

/// <summary>Whether the data folder has room for a day's work and a backup.</summary>
internal sealed class DiskCheck(ShopSettings settings) : IHealthCheck
{
    private const long LeastBytes = 200L * 1024 * 1024;

    public Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext context, CancellationToken cancellationToken = default)
    {
        try
        {
            return Task.FromResult(new DriveInfo(settings.DataFolder).AvailableFreeSpace >= LeastBytes
                ? HealthCheckResult.Healthy()
                : HealthCheckResult.Unhealthy("less than 200 MB free"));
        }
        catch (Exception gone) when (gone is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return Task.FromResult(HealthCheckResult.Unhealthy("cannot be read"));
        }
    }
}
