using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using ShopFluids.Core.Database;

namespace ShopFluids.Web.Startup.Health;

/// <summary>Whether the database answers and has this program's schema.</summary>
internal sealed class DatabaseCheck(IDbContextFactory<ShopFluidsDbContext> contexts) : IHealthCheck
{
    public async Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext context, CancellationToken cancellationToken = default)
    {
        try
        {
            await using var database = await contexts.CreateDbContextAsync(cancellationToken);
            var pending = (await database.Database.GetPendingMigrationsAsync(cancellationToken)).Any();
            return pending ? HealthCheckResult.Unhealthy("schema is not current") : HealthCheckResult.Healthy();
        }
        catch (DbException)
        {
            return HealthCheckResult.Unhealthy("does not answer");
        }
    }
}
