using System.Data;
using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql;
using NpgsqlTypes;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;

namespace ShopFluids.Data.Postgres;

/// <summary>The engine for many instances.</summary>
public sealed class PostgresProvider : IDatabaseProvider
{
    private readonly Func<ShopFluidsDbContext, CancellationToken, Task<RecordHead>> _lockedHead = EF.CompileAsyncQuery(
        (ShopFluidsDbContext database, CancellationToken _) => database.RecordHead.FromSqlRaw("SELECT * FROM \"RecordHead\" WHERE \"Id\" = 1 FOR UPDATE").Single());

    /// <summary>Any number will do, as long as every instance takes the same.</summary>
    private const long HistoryLock = 5_080_001;

    private readonly bool _isFilling;

    public PostgresProvider()
        : this(isFilling: false)
    {
    }

    private PostgresProvider(bool isFilling) => _isFilling = isFilling;

    public string Name => "postgres";

    public void Configure(DbContextOptionsBuilder options, string connectionString) =>
        options.UseNpgsql(Prepared(_isFilling ? WithoutWaiting(connectionString) : connectionString), npgsql => npgsql.MigrationsAssembly(typeof(PostgresProvider).Assembly.GetName().Name));

    public IDatabaseProvider ForFilling() => new PostgresProvider(isFilling: true);

    // The locked row is the writers' lock on every instance, and the query also reads it: one round trip for both.
    public Task<RecordHead> LockHeadAsync(ShopFluidsDbContext database, CancellationToken cancellationToken) =>
        _lockedHead(database, cancellationToken);

    // EF Core's way to learn that an empty PostgreSQL has no table of migrations is a command that fails: three alarming lines in the log of
    // a first start. The lock lets several instances start at once; it ends with the transaction.
    public async Task PrepareHistoryAsync(ShopFluidsDbContext database, CancellationToken cancellationToken)
    {
        var hasTable = await database.Database.SqlQueryRaw<bool>("SELECT to_regclass('\"__EFMigrationsHistory\"') IS NOT NULL AS \"Value\"").SingleAsync(cancellationToken);
        if (!hasTable)
        {
            var create = database.GetService<IHistoryRepository>().GetCreateIfNotExistsScript();
            await using var transaction = await database.Database.BeginTransactionAsync(cancellationToken);
            await database.Database.ExecuteSqlAsync($"SELECT pg_advisory_xact_lock({HistoryLock})", cancellationToken);
            await database.Database.ExecuteSqlRawAsync(create, cancellationToken);
            await transaction.CommitAsync(cancellationToken);
        }
    }

    public IsolationLevel OneMoment => IsolationLevel.RepeatableRead;

    // The mapping knows the type on the wire and tells it only to a parameter.
    private static List<NpgsqlDbType> TypesOf(NpgsqlConnection connection, BulkRows rows)
    {
        using var command = connection.CreateCommand();
        return [.. rows.Columns.Select(c => ((NpgsqlParameter)c.Mapping.CreateParameter(command, c.Name, value: null, nullable: true)).NpgsqlDbType)];
    }

    private static string WithoutWaiting(string connectionString)
    {
        var builder = new NpgsqlConnectionStringBuilder(connectionString);
        builder.Options = $"{builder.Options} -c synchronous_commit=off".TrimStart();
        return builder.ConnectionString;
    }

    // The same few statements run all day; the server plans each once a connection. A connection string that says otherwise wins.
    private static string Prepared(string connectionString)
    {
        var builder = new NpgsqlConnectionStringBuilder(connectionString);
        if (builder.MaxAutoPrepare == 0)
        {
            builder.MaxAutoPrepare = 100;
            builder.AutoPrepareMinUsages = 2;
        }

        // No statement of ours changes a session, only transactions; each query opens a connection, and would have the server put right what nobody changed.
        if (!SaysOfResetting(connectionString))
        {
            builder.NoResetOnClose = true;
        }

        return builder.ConnectionString;
    }

    // The driver's own builder has every key; what was written is known only to the plain one.
    private static bool SaysOfResetting(string connectionString)
    {
        var written = new DbConnectionStringBuilder { ConnectionString = connectionString };
        return written.ContainsKey("No Reset On Close") || written.ContainsKey(nameof(NpgsqlConnectionStringBuilder.NoResetOnClose));
    }

    public async Task InsertAsync(ShopFluidsDbContext database, BulkRows rows, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(database);
        ArgumentNullException.ThrowIfNull(rows);
        var connection = (NpgsqlConnection)database.Database.GetDbConnection();
        var types = TypesOf(connection, rows);
        await using var copy = await connection.BeginBinaryImportAsync($"COPY \"{rows.Table}\" ({string.Join(", ", rows.Columns.Select(c => $"\"{c.Name}\""))}) FROM STDIN (FORMAT BINARY)", cancellationToken);
        foreach (var row in rows.Rows)
        {
            await copy.StartRowAsync(cancellationToken);
            for (var i = 0; i < types.Count; i++)
            {
                if (rows.Columns[i].ValueOf(row) is { } value)
                {
                    await copy.WriteAsync(value, types[i], cancellationToken);
                }
                else
                {
                    await copy.WriteNullAsync(cancellationToken);
                }
            }
        }

        await copy.CompleteAsync(cancellationToken);
    }

    public Task BackupAsync(ShopFluidsDbContext database, string file, CancellationToken cancellationToken) =>
        throw new InvalidOperationException("PostgreSQL is backed up by its own pg_dump.");
}
