using Npgsql;

namespace ShopFluids.Benchmarks;

/// <summary>A database of its own on the PostgreSQL server.</summary>
internal static class BenchDatabase
{
    public static async Task<string> CreateAsync(string server, string kind)
    {
        var name = $"bench_{kind}_{Environment.ProcessId}";
        await using (var connection = new NpgsqlConnection(server))
        {
            await connection.OpenAsync();
            await using var command = connection.CreateCommand();
            command.CommandText = $"""DROP DATABASE IF EXISTS "{name}" """;
            await command.ExecuteNonQueryAsync();
            command.CommandText = $"""CREATE DATABASE "{name}" """;
            await command.ExecuteNonQueryAsync();
        }

        return new NpgsqlConnectionStringBuilder(server) { Database = name }.ConnectionString;
    }
}

/// <summary>The real clock: here it is what is measured with.</summary>
internal sealed class WallClock : TimeProvider;
