using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.DemoData;

/// <summary>The same database by the engine's way for filling.</summary>
internal static class FillingContexts
{
    public static async Task<IDbContextFactory<ShopFluidsDbContext>> OfAsync(IDbContextFactory<ShopFluidsDbContext> contexts, IDatabaseProvider filling, CancellationToken cancellationToken)
    {
        await using var db = await contexts.CreateDbContextAsync(cancellationToken);
        var options = new DbContextOptionsBuilder<ShopFluidsDbContext>();
        filling.Configure(options, db.Database.GetConnectionString() ?? throw new InvalidOperationException("The database has no connection string."));
        return new PooledDbContextFactory<ShopFluidsDbContext>(options.Options);
    }
}
