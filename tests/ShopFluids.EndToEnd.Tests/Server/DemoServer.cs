using System.Collections.Concurrent;
using ShopFluids.Core.Wording;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.Testing.Databases;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Server;

/// <summary>The demo shop as `--demo` starts it, once for all tests that share it.</summary>
public abstract class DemoServer(DatabaseEngine engine) : IAsyncLifetime
{
    private readonly ConcurrentDictionary<string, Lazy<Task<string>>> _signedIn = new(StringComparer.Ordinal);
    private TestDatabase? _database;
    private ServerData? _data;
    private ServerProcess? _server;
    private ApiClient? _api;

    public Uri Address => Server.Address;

    internal ApiClient Api => _api ?? throw new InvalidOperationException("The demo shop is not open.");

    internal ServerProcess Server => _server ?? throw new InvalidOperationException("The demo shop is not open.");

    public async ValueTask InitializeAsync()
    {
        // The embedded engine makes its own file; PostgreSQL wants to be told which database.
        _database = engine == DatabaseEngine.Postgres ? await TestDatabase.CreateAsync(engine) : null;
        _data = ServerData.New(engine, _database?.ConnectionString);
        _server = await ServerProcess.StartAsync(_data, "--demo");
        _api = new ApiClient(_server.Address, await _server.LineAsync(string.Format(System.Globalization.CultureInfo.InvariantCulture, Texts.Start_DemoToken, "")));
    }

    /// <summary>A browser in which the demo's person of this role has signed in.</summary>
    internal async Task<Visit> VisitAsync(Chromium chromium, string? role, int width = 800, int height = 1280, bool hasScript = true)
    {
        var state = role is null ? null : await _signedIn.GetOrAdd(role, r => new(() => SignIn.AsDemoAsync(chromium, Address, r))).Value;
        return await Visit.OpenAsync(chromium, Address, state, width, height, hasScript);
    }

    public async ValueTask DisposeAsync()
    {
        _api?.Dispose();
        if (_server is not null)
        {
            await _server.DisposeAsync();
        }

        _data?.Dispose();
        if (_database is not null)
        {
            await _database.DisposeAsync();
        }

        GC.SuppressFinalize(this);
    }
}

public sealed class SqliteDemo() : DemoServer(DatabaseEngine.Sqlite);

public sealed class PostgresDemo() : DemoServer(DatabaseEngine.Postgres);

[CollectionDefinition(Name)]
public sealed class SqliteDemoTests : ICollectionFixture<SqliteDemo>
{
    public const string Name = "Demo shop on SQLite";
}

[CollectionDefinition(Name)]
public sealed class PostgresDemoTests : ICollectionFixture<PostgresDemo>
{
    public const string Name = "Demo shop on PostgreSQL";
}
