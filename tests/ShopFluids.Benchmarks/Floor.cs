using System.Data.Common;
using Microsoft.Data.Sqlite;
using Npgsql;

namespace ShopFluids.Benchmarks;

/// <summary>The least that a stored row can cost: one insert into one narrow table and its commit, with the same driver, file system and durability.</summary>
internal sealed class Floor : IAsyncDisposable
{
    private readonly DbConnection _connection;
    private readonly DbCommand _insert;

    private Floor(DbConnection connection, DbCommand insert)
    {
        _connection = connection;
        _insert = insert;
    }

    public static async Task<Floor> SqliteAsync(string folder)
    {
        var connection = new SqliteConnection($"Data Source={Path.Combine(folder, "floor.db")}");
        await connection.OpenAsync();
        await ExecuteAsync(connection, "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL;");
        return await WithTableAsync(connection, "CREATE TABLE floor (id INTEGER PRIMARY KEY, text TEXT NOT NULL)");
    }

    public static async Task<Floor> PostgresAsync(string connectionString)
    {
        var connection = new NpgsqlConnection(connectionString);
        await connection.OpenAsync();
        return await WithTableAsync(connection, "CREATE TABLE floor (id integer GENERATED ALWAYS AS IDENTITY PRIMARY KEY, text varchar(40) NOT NULL)");
    }

    public async Task InsertAsync(int number)
    {
        await using var transaction = await _connection.BeginTransactionAsync();
        _insert.Transaction = transaction;
        _insert.Parameters[0].Value = $"row {number}";
        await _insert.ExecuteNonQueryAsync();
        await transaction.CommitAsync();
    }

    public async ValueTask DisposeAsync()
    {
        await _insert.DisposeAsync();
        await _connection.DisposeAsync();
    }

    private static async Task<Floor> WithTableAsync(DbConnection connection, string table)
    {
        await ExecuteAsync(connection, table);
        var insert = connection.CreateCommand();
        insert.CommandText = "INSERT INTO floor (text) VALUES (@text)";
        var parameter = insert.CreateParameter();
        parameter.ParameterName = "text";
        insert.Parameters.Add(parameter);
        return new(connection, insert);
    }

    private static async Task ExecuteAsync(DbConnection connection, string sql)
    {
        await using var command = connection.CreateCommand();
        command.CommandText = sql;
        await command.ExecuteNonQueryAsync();
    }
}
