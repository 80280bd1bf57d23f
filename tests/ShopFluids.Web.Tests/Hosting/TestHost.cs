using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Time.Testing;
using ShopFluids.Core.People;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Settings;
using ShopFluids.Web.Startup;
using Engine = ShopFluids.Web.Settings.DatabaseEngine;

namespace ShopFluids.Web.Tests.Hosting;

/// <summary>The program as it is served, on a test database, in memory, with its clock held at <see cref="Some.Start"/>.</summary>
internal sealed class TestHost : IAsyncDisposable
{
    public const string Password = "long enough to pass";

    private readonly WebApplication _app;
    private readonly string _folder;

    private TestHost(WebApplication app, FakeTimeProvider clock, string folder)
    {
        _app = app;
        Clock = clock;
        _folder = folder;
    }

    public FakeTimeProvider Clock { get; }

    public IServiceProvider Services => _app.Services;

    public static async Task<TestHost> StartAsync(TestDatabase database, string basePath = "", Func<ShopSettings, ShopSettings>? set = null)
    {
        var folder = Directory.CreateTempSubdirectory("shopfluids-host-").FullName;
        var clock = new FakeTimeProvider(new DateTimeOffset(Some.Start));
        var settings = new ShopSettings
        {
            DataFolder = folder,
            Engine = database.Engine == Testing.Databases.DatabaseEngine.Sqlite ? Engine.Sqlite : Engine.Postgres,
            ConnectionString = database.ConnectionString,
            Urls = ["http://localhost:0"],
            BasePath = basePath,
            TimeZoneId = "Europe/Berlin",
        };
        var app = ShopApp.Build(set?.Invoke(settings) ?? settings, builder =>
        {
            builder.WebHost.UseTestServer();
            builder.Logging.ClearProviders();
            builder.Services.AddSingleton<TimeProvider>(clock);
            // A test checks what a password does, not how slow its hash is.
            builder.Services.Configure<PasswordHasherOptions>(o => o.IterationCount = 1);
        });
        await app.Services.GetRequiredService<ShipParametersHandler>().HandleAsync(default);
        await app.StartAsync();
        return new TestHost(app, clock, folder);
    }

    /// <summary>Without redirects followed and without cookies: what the server answers is what the test sees.</summary>
    public HttpClient Client() => _app.GetTestClient();

    /// <summary>A browser without script: keeps cookies, follows redirects.</summary>
    public TestBrowser Browser() => new(_app.GetTestServer());

    /// <summary>A client with a working token of a person with these roles.</summary>
    public async Task<HttpClient> ClientOfAsync(params string[] roles)
    {
        var id = await AccountAsync($"program-{string.Join('-', roles)}", roles);
        var token = (await Get<MakeTokenHandler>().HandleAsync(new MakeToken(Some.Id(), $"token-{string.Join('-', roles)}", id), Actor.Program, default)).Done();
        var client = Client();
        client.DefaultRequestHeaders.Authorization = new("Bearer", token.Token);
        return client;
    }

    public async Task<Guid> AccountAsync(string signInName, params string[] roles)
    {
        var made = await Get<MakeAccountHandler>().HandleAsync(new MakeAccount(Some.Id(), signInName, "Somebody", Password, roles, "light"), Actor.Program, default);
        return made.Done().Id;
    }

    public T Get<T>()
        where T : notnull => _app.Services.GetRequiredService<T>();

    public async ValueTask DisposeAsync()
    {
        await _app.StopAsync();
        await _app.DisposeAsync();
        Directory.Delete(_folder, recursive: true);
    }
}
