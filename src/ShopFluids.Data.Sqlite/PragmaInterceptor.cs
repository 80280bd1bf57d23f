using System.Data.Common;
using System.Runtime.CompilerServices;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore.Diagnostics;
using SQLitePCL;

namespace ShopFluids.Data.Sqlite;

/// <summary>
/// Write-ahead log so that readers never wait, a patient writer, enforced foreign keys, and a synced log at every commit:
/// an acknowledged save survives a killed process and a power cut. What is overwritten is
/// overwritten in the file, too: the name of somebody who has left must not linger in it.
/// </summary>
internal sealed class PragmaInterceptor : DbConnectionInterceptor
{
    private const string Pragmas = "PRAGMA journal_mode=WAL; PRAGMA busy_timeout=5000; PRAGMA foreign_keys=ON; PRAGMA secure_delete=FAST; ";
    private readonly string _pragmas;

    private PragmaInterceptor(string synchronous) => _pragmas = Pragmas + synchronous;

    public static PragmaInterceptor Durable { get; } = new("PRAGMA synchronous=FULL;");

    /// <summary>Leaves the log to the operating system: for a database that can be filled again.</summary>
    public static PragmaInterceptor Filling { get; } = new("PRAGMA synchronous=OFF;");

    // The driver keeps closed connections open in its pool, and they keep their settings: each is set once.
    private readonly ConditionalWeakTable<sqlite3, object> _set = [];

    public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData)
    {
        if (IsNew(connection))
        {
            using var command = connection.CreateCommand();
            command.CommandText = _pragmas;
            command.ExecuteNonQuery();
        }
    }

    public override async Task ConnectionOpenedAsync(DbConnection connection, ConnectionEndEventData eventData, CancellationToken cancellationToken = default)
    {
        if (IsNew(connection))
        {
            await using var command = connection.CreateCommand();
            command.CommandText = _pragmas;
            await command.ExecuteNonQueryAsync(cancellationToken);
        }
    }

    private bool IsNew(DbConnection connection) =>
        ((SqliteConnection)connection).Handle is not { } handle || _set.TryAdd(handle, handle);
}
