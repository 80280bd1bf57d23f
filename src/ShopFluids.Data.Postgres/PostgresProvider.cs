using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;

namespace ShopFluids.Data.Postgres;

/// <summary>The engine for many instances.</summary>
public sealed class PostgresProvider : IDatabaseProvider
{
    public string Name => "postgres";

    public void Configure(DbContextOptionsBuilder options, string connectionString) =>
        options.UseNpgsql(connectionString, npgsql => npgsql.MigrationsAssembly(typeof(PostgresProvider).Assembly.GetName().Name));

    // The locked row is the writers' lock on every instance, and the query also reads it: one round trip for both.
    public Task<RecordHead> LockHeadAsync(ShopFluidsDbContext database, CancellationToken cancellationToken) =>
        database.RecordHead.FromSql($"""SELECT * FROM "RecordHead" WHERE "Id" = 1 FOR UPDATE""").SingleAsync(cancellationToken);

    public Task BackupAsync(ShopFluidsDbContext database, string file, CancellationToken cancellationToken) =>
        throw new InvalidOperationException("PostgreSQL is backed up by its own pg_dump.");
}
