using System.Data;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using IDatabaseProvider = ShopFluids.Core.Database.IDatabaseProvider;

namespace ShopFluids.Data.Sqlite;

/// <summary>The embedded engine: one file, no server.</summary>
public sealed class SqliteProvider : IDatabaseProvider
{
    /// <summary>Differs from the driver's usual 30 s.</summary>
    private const int FillingTimeoutSeconds = 60;

    private readonly Func<ShopFluidsDbContext, CancellationToken, Task<RecordHead>> _head =
        EF.CompileAsyncQuery((ShopFluidsDbContext database, CancellationToken _) => database.RecordHead.Single());

    private readonly bool _isFilling;

    public SqliteProvider()
        : this(isFilling: false)
    {
    }

    private SqliteProvider(bool isFilling) => _isFilling = isFilling;

    public string Name => "sqlite";

    public void Configure(DbContextOptionsBuilder options, string connectionString) =>
        options.UseSqlite(_isFilling ? WithOwnPool(connectionString) : connectionString, sqlite => sqlite.MigrationsAssembly(typeof(SqliteProvider).Assembly.GetName().Name))
            .AddInterceptors(_isFilling ? PragmaInterceptor.Filling : PragmaInterceptor.Durable);

    public IDatabaseProvider ForFilling() => new SqliteProvider(isFilling: true);

    // BeginTransaction of this driver is BEGIN IMMEDIATE: the transaction itself is the writers' lock.
    public Task<RecordHead> LockHeadAsync(ShopFluidsDbContext database, CancellationToken cancellationToken) =>
        _head(database, cancellationToken);

    // This driver's name for a deferred BEGIN; with a write-ahead log its reads see the moment of the first one.
    // EF Core asks SQLite first whether the table is there.
    public Task PrepareHistoryAsync(ShopFluidsDbContext database, CancellationToken cancellationToken) => Task.CompletedTask;

    public IsolationLevel OneMoment => IsolationLevel.ReadUncommitted;

    public async Task InsertAsync(ShopFluidsDbContext database, BulkRows rows, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(database);
        ArgumentNullException.ThrowIfNull(rows);
        await using var insert = (SqliteCommand)database.Database.GetDbConnection().CreateCommand();
        insert.Transaction = (SqliteTransaction?)database.Database.CurrentTransaction?.GetDbTransaction();
        insert.CommandText = $"INSERT INTO \"{rows.Table}\" ({string.Join(", ", rows.Columns.Select(c => $"\"{c.Name}\""))}) VALUES ({string.Join(", ", rows.Columns.Select((_, i) => $"@p{i}"))})";
        var parameters = rows.Columns.Select((_, i) => insert.Parameters.Add(new SqliteParameter { ParameterName = $"@p{i}" })).ToList();
        foreach (var row in rows.Rows)
        {
            for (var i = 0; i < parameters.Count; i++)
            {
                parameters[i].Value = rows.Columns[i].ValueOf(row) ?? DBNull.Value;
            }

            await insert.ExecuteNonQueryAsync(cancellationToken);
        }
    }

    public async Task BackupAsync(ShopFluidsDbContext database, string file, CancellationToken cancellationToken)
    {
        await database.Database.OpenConnectionAsync(cancellationToken);
        var source = (SqliteConnection)database.Database.GetDbConnection();
        await using var target = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = file, Pooling = false }.ToString());
        await target.OpenAsync(cancellationToken);
        source.BackupDatabase(target);
    }

    // Another connection string has another pool: a connection that does not sync must never serve a person's save.
    private static string WithOwnPool(string connectionString) =>
        new SqliteConnectionStringBuilder(connectionString) { DefaultTimeout = FillingTimeoutSeconds }.ConnectionString;
}
