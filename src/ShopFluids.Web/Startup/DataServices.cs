using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection.Extensions;
using ShopFluids.Core.Database;
using ShopFluids.Data.Postgres;
using ShopFluids.Data.Sqlite;
using ShopFluids.Web.Settings;
using ShopFluids.Web.Startup.Sealing;

namespace ShopFluids.Web.Startup;

public static class DataServices
{
    /// <summary>The database of the settings, the clock, and nothing of the web: verbs use it without a server.</summary>
    public static IServiceCollection AddShopFluidsData(this IServiceCollection services, ShopSettings settings)
    {
        IDatabaseProvider provider = settings.Engine == DatabaseEngine.Postgres ? new PostgresProvider() : new SqliteProvider();
        services.AddSingleton(settings);
        services.AddSingleton(provider);
        services.TryAddSingleton<TimeProvider, SystemTime>();

        // Pooled: making a context costs more than most of our queries. A context holds nothing of its own between two uses;
        // the pool resets what EF Core knows of, and ShopWrite clears its mark.
        services.AddPooledDbContextFactory<ShopFluidsDbContext>(options => provider.Configure(options, settings.ConnectionString));

        // Only Identity's stores take a context for a whole request; commands and queries open their own.
        services.TryAddScoped(scope => scope.GetRequiredService<IDbContextFactory<ShopFluidsDbContext>>().CreateDbContext());
        services.AddSingleton<RecordKeyFile>();
        services.AddSingleton<RecordKeyOpening>();
        services.AddSingleton<DatabaseOpening>();
        return services;
    }
}
