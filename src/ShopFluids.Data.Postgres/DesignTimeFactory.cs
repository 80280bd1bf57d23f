using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;
using ShopFluids.Core.Database;

namespace ShopFluids.Data.Postgres;

/// <summary>Lets the migration tool make the model; it opens no database.</summary>
internal sealed class DesignTimeFactory : IDesignTimeDbContextFactory<ShopFluidsDbContext>
{
    public ShopFluidsDbContext CreateDbContext(string[] args)
    {
        var options = new DbContextOptionsBuilder<ShopFluidsDbContext>();
        new PostgresProvider().Configure(options, "Host=localhost;Database=design");
        return new ShopFluidsDbContext(options.Options);
    }
}
