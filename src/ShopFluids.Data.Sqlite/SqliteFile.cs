using System.Globalization;
using Microsoft.Data.Sqlite;
using ShopFluids.Core.Record.Sealing;

namespace ShopFluids.Data.Sqlite;

/// <summary>Database files as a whole: whether one is sound, and a copy through the engine, which a plain file copy is not.</summary>
public static class SqliteFile
{
    /// <summary>Opens the file and reads all of it.</summary>
    /// <returns>Null when it is a sound database of this program; else what the engine says.</returns>
    public static async Task<string?> FindFaultAsync(string file, CancellationToken cancellationToken)
    {
        try
        {
            await using var connection = await OpenAsync(file, cancellationToken);
            var verdict = await ScalarAsync(connection, "PRAGMA integrity_check", cancellationToken);
            if (verdict != "ok")
            {
                return verdict;
            }

            var tables = await ScalarAsync(connection, "SELECT COUNT(*) FROM sqlite_master WHERE name IN ('RecordHead', '__EFMigrationsHistory')", cancellationToken);
            return tables == "2" ? null : "RecordHead is missing";
        }
        catch (SqliteException broken)
        {
            return broken.Message;
        }
    }

    /// <summary>Where the record of a sound database ends; null when somebody took that away.</summary>
    public static async Task<RecordFingerprint?> ReadHeadAsync(string file, CancellationToken cancellationToken)
    {
        await using var connection = await OpenAsync(file, cancellationToken);
        return await ScalarAsync(connection, "SELECT Sequence || ':' || Hash FROM RecordHead", cancellationToken) is { } text && RecordFingerprint.TryParse(text, out var head) ? head : null;
    }

    /// <summary>The hash of an entry of the record; null when there is no such entry.</summary>
    public static async Task<string?> ReadHashAsync(string file, long sequence, CancellationToken cancellationToken)
    {
        await using var connection = await OpenAsync(file, cancellationToken);
        return await ScalarAsync(connection, string.Create(CultureInfo.InvariantCulture, $"SELECT Hash FROM RecordEntries WHERE Sequence = {sequence}"), cancellationToken);
    }

    /// <summary>Whether any entry of the record carries a seal; one from before seals has no place for it.</summary>
    public static async Task<bool> IsSealedAsync(string file, CancellationToken cancellationToken)
    {
        await using var connection = await OpenAsync(file, cancellationToken);
        return await ScalarAsync(connection, "SELECT COUNT(*) FROM pragma_table_info('RecordEntries') WHERE name = 'Seal'", cancellationToken) == "1"
            && await ScalarAsync(connection, "SELECT EXISTS (SELECT 1 FROM RecordEntries WHERE Seal IS NOT NULL)", cancellationToken) == "1";
    }

    /// <summary>Copies a database through the engine.</summary>
    public static async Task CopyAsync(string source, string target, CancellationToken cancellationToken)
    {
        await using var from = new SqliteConnection(ConnectionString(source, SqliteOpenMode.ReadOnly));
        await using var to = new SqliteConnection(ConnectionString(target, SqliteOpenMode.ReadWriteCreate));
        await from.OpenAsync(cancellationToken);
        await to.OpenAsync(cancellationToken);
        from.BackupDatabase(to);
    }

    /// <summary>The file that a connection string names, as a full path; null for a database in memory.</summary>
    public static string? PathOf(string connectionString)
    {
        var builder = new SqliteConnectionStringBuilder(connectionString);
        return builder.Mode == SqliteOpenMode.Memory || builder.DataSource is "" or ":memory:" ? null : Path.GetFullPath(builder.DataSource);
    }

    private static string ConnectionString(string file, SqliteOpenMode mode) =>
        new SqliteConnectionStringBuilder { DataSource = file, Mode = mode, Pooling = false }.ToString();

    private static async Task<SqliteConnection> OpenAsync(string file, CancellationToken cancellationToken)
    {
        var connection = new SqliteConnection(ConnectionString(file, SqliteOpenMode.ReadOnly));
        try
        {
            await connection.OpenAsync(cancellationToken);
            return connection;
        }
        catch
        {
            await connection.DisposeAsync();
            throw;
        }
    }

    private static async Task<string?> ScalarAsync(SqliteConnection connection, string statement, CancellationToken cancellationToken)
    {
        await using var command = connection.CreateCommand();
        // The callers above pass constants and numbers only.
        command.CommandText = statement;
        return await command.ExecuteScalarAsync(cancellationToken) is { } value and not DBNull ? Convert.ToString(value, CultureInfo.InvariantCulture) : null;
    }
}
