using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Data.Postgres;
using ShopFluids.Data.Sqlite;

namespace ShopFluids.Testing.Databases;

/// <summary>
/// One migrated, empty database for one test, dropped on dispose. A test of its own kind (a running server, say) makes one with
/// <see cref="CreateAsync"/>; theories get theirs from <see cref="EachDatabaseAttribute"/>.
/// </summary>
public sealed class TestDatabase : IAsyncDisposable
{
    private readonly string? _connectionString;
    private readonly Exception? _fault;
    private readonly Lazy<Task> _drop;

    private TestDatabase(DatabaseEngine engine, string? connectionString, Exception? fault)
    {
        Engine = engine;
        _connectionString = connectionString;
        _fault = fault;
        _drop = new(() => Task.Run(DropAsync));
    }

    public DatabaseEngine Engine { get; }

    /// <exception cref="InvalidOperationException">The engine is not to be had here: a failure of the test, never a reason to skip it.</exception>
    public string ConnectionString => _connectionString
        ?? throw new InvalidOperationException($"This test needs {Engine}, which is not to be had here. {_fault?.Message}", _fault);

    /// <summary>Contexts as the program makes them: with this engine's provider, one for each operation.</summary>
    public IDbContextFactory<ShopFluidsDbContext> Factory => new ContextFactory(OptionsFor(Engine, ConnectionString));

    /// <summary>The program's seam to this engine; its name is the one in the settings.</summary>
    public IDatabaseProvider Provider => ProviderOf(Engine);

    public static async Task<TestDatabase> CreateAsync(DatabaseEngine engine) =>
        new(engine, engine == DatabaseEngine.Sqlite ? await SqliteDatabases.CreateAsync() : await PostgresDatabases.CreateAsync(), fault: null);

    public ShopFluidsDbContext Open() => Factory.CreateDbContext();

    public async ValueTask DisposeAsync() => await _drop.Value;

    /// <summary>Begins what <see cref="DisposeAsync"/> waits for.</summary>
    internal void BeginDrop() => _ = _drop.Value;

    /// <summary>How a test on this database is named in the results.</summary>
    public override string ToString() => Provider.Name;

    /// <summary>A missing engine fails the tests on that engine only, each with the reason, once they use the database.</summary>
    internal static async Task<TestDatabase> TryCreateAsync(DatabaseEngine engine)
    {
        try
        {
            return await CreateAsync(engine);
        }
        catch (Exception fault)
        {
            return new TestDatabase(engine, connectionString: null, fault);
        }
    }

    internal static DbContextOptions<ShopFluidsDbContext> OptionsFor(DatabaseEngine engine, string connectionString)
    {
        var builder = new DbContextOptionsBuilder<ShopFluidsDbContext>();
        ProviderOf(engine).Configure(builder, connectionString);
        return builder.Options;
    }

    private async Task DropAsync()
    {
        if (_connectionString is null)
        {
            return;
        }

        if (Engine == DatabaseEngine.Sqlite)
        {
            SqliteDatabases.Drop(_connectionString);
        }
        else
        {
            await PostgresDatabases.DropAsync(_connectionString);
        }
    }

    private static IDatabaseProvider ProviderOf(DatabaseEngine engine) =>
        engine == DatabaseEngine.Sqlite ? new SqliteProvider() : new PostgresProvider();

    private sealed class ContextFactory(DbContextOptions<ShopFluidsDbContext> options) : IDbContextFactory<ShopFluidsDbContext>
    {
        public ShopFluidsDbContext CreateDbContext() => new(options);
    }
}
