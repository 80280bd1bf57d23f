using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Microsoft.Extensions.Logging;
using ShopFluids.Core.Database;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Database;

/// <summary>A first start finds a database without EF Core's own table; asking for it must not fail, for what fails stands in the log.</summary>
public sealed class PrepareHistoryTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task PrepareHistoryAsync_NoTableOfMigrations_LetsEfCoreAskWithoutAFailedCommand(TestDatabase database)
    {
        await RawSql.ExecuteAsync(database, "DROP TABLE \"__EFMigrationsHistory\"");
        var failed = new List<EventId>();
        var options = new DbContextOptionsBuilder<ShopFluidsDbContext>().LogTo((id, _) => id == RelationalEventId.CommandError, data => failed.Add(data.EventId));
        database.Provider.Configure(options, database.ConnectionString);
        await using var db = new ShopFluidsDbContext((DbContextOptions<ShopFluidsDbContext>)options.Options);

        await database.Provider.PrepareHistoryAsync(db, Stop);
        await database.Provider.PrepareHistoryAsync(db, Stop);
        var pending = await db.Database.GetPendingMigrationsAsync(Stop);

        Assert.NotEmpty(pending);
        Assert.Empty(failed);
    }
}
