using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;
using ShopFluids.Core.Database;

namespace ShopFluids.Data.Sqlite;

/// <summary>Lets the migration tool make the model; it opens no database.</summary>
internal sealed class DesignTimeFactory : IDesignTimeDbContextFactory<ShopFluidsDbContext>
{
    public ShopFluidsDbContext CreateDbContext(string[] args)
    {
        var options = new DbContextOptionsBuilder<ShopFluidsDbContext>();
        new SqliteProvider().Configure(options, "Data Source=design.db");
        return new ShopFluidsDbContext(options.Options);
    }
}
