using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using Npgsql;
using ShopFluids.Core.Database;

namespace ShopFluids.Testing.Databases;

/// <summary>Databases on the test server: migrated once in each process, then copied by the server for each test.</summary>
internal static class PostgresDatabases
{
    private static readonly Lazy<Task<string>> Template = new(MakeTemplateAsync);

    public static async Task<string> CreateAsync()
    {
        var template = await Template.Value;
        var name = NewName("t");
        // Copying files takes half as long as writing every page through the log, and nobody writes to the template meanwhile.
        await RunAsync($"CREATE DATABASE {name} TEMPLATE {template} STRATEGY file_copy");
        return await ConnectionStringAsync(name);
    }

    public static async Task DropAsync(string connectionString)
    {
        await CloseIdleAsync(connectionString);
        var name = new NpgsqlConnectionStringBuilder(connectionString).Database;
        await RunAsync($"DROP DATABASE {name} WITH (FORCE)");
    }

    private static async Task<string> MakeTemplateAsync()
    {
        var name = NewName("migrated");
        await RunAsync($"CREATE DATABASE {name}");
        var connectionString = await ConnectionStringAsync(name);
        await using (var database = new ShopFluidsDbContext(TestDatabase.OptionsFor(DatabaseEngine.Postgres, connectionString)))
        {
            await database.Database.MigrateAsync();
        }

        // A database can be copied only while nobody is connected to it.
        await CloseIdleAsync(connectionString);
        var server = await PostgresServer.ConnectAsync();
        if (server.OutlivesProcess)
        {
            AppDomain.CurrentDomain.ProcessExit += (_, _) => Run(server.ConnectionString, $"DROP DATABASE {name} WITH (FORCE)");
        }

        return name;
    }

    /// <summary>The provider adds to the connection string, so contexts have a pool of their own beside that of plain connections.</summary>
    private static async Task CloseIdleAsync(string connectionString)
    {
        await using var database = new ShopFluidsDbContext(TestDatabase.OptionsFor(DatabaseEngine.Postgres, connectionString));
        NpgsqlConnection.ClearPool((NpgsqlConnection)database.Database.GetDbConnection());
        await using var plain = new NpgsqlConnection(connectionString);
        NpgsqlConnection.ClearPool(plain);
    }

    private static string NewName(string prefix) => $"{prefix}_{RandomNumberGenerator.GetHexString(16, lowercase: true)}";

    private static async Task<string> ConnectionStringAsync(string database) =>
        new NpgsqlConnectionStringBuilder((await PostgresServer.ConnectAsync()).ConnectionString)
        {
            Database = database,
            IncludeErrorDetail = true,
            // Tests that run side by side, each with a pool of its own, share the connections of one server.
            MaxPoolSize = 30,
        }.ConnectionString;

    private static async Task RunAsync(string statement)
    {
        await using var connection = new NpgsqlConnection((await PostgresServer.ConnectAsync()).ConnectionString);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand(statement, connection);
        await command.ExecuteNonQueryAsync();
    }

    private static void Run(string connectionString, string statement)
    {
        using var connection = new NpgsqlConnection(connectionString);
        connection.Open();
        using var command = new NpgsqlCommand(statement, connection);
        command.ExecuteNonQuery();
    }
}
