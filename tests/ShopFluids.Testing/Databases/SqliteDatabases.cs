using System.Security.Cryptography;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;

namespace ShopFluids.Testing.Databases;

/// <summary>SQLite files in one temporary folder of this process: migrated once, then copied by SQLite itself for each test.</summary>
internal static class SqliteDatabases
{
    private static readonly Lazy<string> Folder = new(MakeFolder);
    private static readonly Lazy<Task<string>> Template = new(MakeTemplateAsync);

    public static async Task<string> CreateAsync()
    {
        var connectionString = NewConnectionString();
        await using var template = new SqliteConnection(await Template.Value);
        await using var copy = new SqliteConnection(connectionString);
        await template.OpenAsync();
        await copy.OpenAsync();
        template.BackupDatabase(copy);
        return connectionString;
    }

    public static void Drop(string connectionString)
    {
        using (var connection = new SqliteConnection(connectionString))
        {
            SqliteConnection.ClearPool(connection);
        }

        var file = new SqliteConnectionStringBuilder(connectionString).DataSource;
        foreach (var part in new[] { file, file + "-wal", file + "-shm" })
        {
            File.Delete(part);
        }
    }

    private static async Task<string> MakeTemplateAsync()
    {
        var connectionString = NewConnectionString();
        await using var database = new ShopFluidsDbContext(TestDatabase.OptionsFor(DatabaseEngine.Sqlite, connectionString));
        await database.Database.MigrateAsync();
        return connectionString;
    }

    private static string NewConnectionString() =>
        new SqliteConnectionStringBuilder
        {
            DataSource = Path.Combine(Folder.Value, RandomNumberGenerator.GetHexString(16, lowercase: true) + ".db"),
        }.ConnectionString;

    private static string MakeFolder()
    {
        var folder = Directory.CreateTempSubdirectory("shopfluids-tests-");
        AppDomain.CurrentDomain.ProcessExit += (_, _) =>
        {
            SqliteConnection.ClearAllPools();
            folder.Delete(recursive: true);
        };
        return folder.FullName;
    }
}
