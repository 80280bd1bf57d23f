using System.Data.Common;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace ShopFluids.Data.Sqlite;

/// <summary>
/// Write-ahead log so that readers never wait, a patient writer, enforced foreign keys, and a synced log at every commit:
/// an acknowledged save survives a killed process and a power cut.
/// </summary>
internal sealed class PragmaInterceptor : DbConnectionInterceptor
{
    private const string Pragmas = "PRAGMA journal_mode=WAL; PRAGMA busy_timeout=5000; PRAGMA foreign_keys=ON; PRAGMA synchronous=FULL;";

    public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData)
    {
        using var command = connection.CreateCommand();
        command.CommandText = Pragmas;
        command.ExecuteNonQuery();
    }

    public override async Task ConnectionOpenedAsync(DbConnection connection, ConnectionEndEventData eventData, CancellationToken cancellationToken = default)
    {
        await using var command = connection.CreateCommand();
        command.CommandText = Pragmas;
        await command.ExecuteNonQueryAsync(cancellationToken);
    }
}
