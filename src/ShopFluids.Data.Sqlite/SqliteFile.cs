using Microsoft.Data.Sqlite;

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
            await using var connection = new SqliteConnection(ConnectionString(file, SqliteOpenMode.ReadOnly));
            await connection.OpenAsync(cancellationToken);
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

    private static async Task<string?> ScalarAsync(SqliteConnection connection, string statement, CancellationToken cancellationToken)
    {
        await using var command = connection.CreateCommand();
        // The callers above pass constants only.
        command.CommandText = statement;
        return Convert.ToString(await command.ExecuteScalarAsync(cancellationToken), System.Globalization.CultureInfo.InvariantCulture);
    }
}
