using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using ShopFluids.Core.Database;
using ShopFluids.Testing.Databases;

namespace ShopFluids.Testing.Shop;

/// <summary>Hands on the database behind the program's back: no handler, no record, no foreign keys in the way.</summary>
public sealed class RawSql : IAsyncDisposable
{
    private readonly DbConnection _connection;

    private RawSql(ShopFluidsDbContext context)
    {
        Context = context;
        _connection = context.Database.GetDbConnection();
    }

    /// <summary>Sees what these hands have done, also before it is committed.</summary>
    public ShopFluidsDbContext Context { get; }

    public static async Task<RawSql> OpenAsync(TestDatabase database)
    {
        var sql = new RawSql(database.Open());
        await sql.Context.Database.OpenConnectionAsync();
        await sql.ExecuteAsync(database.Engine == DatabaseEngine.Sqlite ? "PRAGMA foreign_keys = OFF" : "SET session_replication_role = replica");
        return sql;
    }

    public static async Task ExecuteAsync(TestDatabase database, string statement)
    {
        await using var sql = await OpenAsync(database);
        await sql.ExecuteAsync(statement);
    }

    public async Task<int> ExecuteAsync(string statement, object? value = null)
    {
        await using var command = Command(statement, value);
        return await command.ExecuteNonQueryAsync();
    }

    public async Task<object?> ScalarAsync(string query)
    {
        await using var command = Command(query, null);
        return await command.ExecuteScalarAsync();
    }

    public async ValueTask DisposeAsync() => await Context.DisposeAsync();

    private DbCommand Command(string text, object? value)
    {
        var command = _connection.CreateCommand();
        command.CommandText = text;
        command.Transaction = Context.Database.CurrentTransaction?.GetDbTransaction();
        if (value is not null)
        {
            var parameter = command.CreateParameter();
            parameter.ParameterName = "value";
            parameter.Value = value;
            command.Parameters.Add(parameter);
        }

        return command;
    }
}
