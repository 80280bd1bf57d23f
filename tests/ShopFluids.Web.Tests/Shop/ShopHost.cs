using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using ShopFluids.Core.People;
using ShopFluids.Core.Record;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Settings;
using ShopFluids.Web.Startup;
using Xunit;

namespace ShopFluids.Web.Tests.Shop;

/// <summary>The real host on the small shop of <see cref="ShopFixture"/>, with an operator signed in who posts forms as a browser without script does.</summary>
public sealed partial class ShopHost : IAsyncDisposable
{
    public const string SignInName = "karrow";
    public const string Password = "round the shop floor 7";
    private readonly TestDatabase _database;
    private readonly WebApplication _app;
    private readonly CookieContainer _cookies = new();
    private readonly HttpClient _http;
    private readonly string _folder;

    private ShopHost(TestDatabase database, ShopFixture shop, WebApplication app, string folder)
    {
        _database = database;
        _app = app;
        _folder = folder;
        Shop = shop;
        _http = new HttpClient(new CookieKeeper(_cookies) { InnerHandler = ((TestServer)app.Services.GetRequiredService<IServer>()).CreateHandler() })
        {
            BaseAddress = new Uri("http://localhost"),
        };
    }

    public ShopFixture Shop { get; }

    public static async Task<ShopHost> OpenAsync(Func<ShopFixture, Task>? prepare = null, string role = Roles.Operator, Func<TestDatabase, Task<ShopFixture>>? open = null)
    {
        var database = await TestDatabase.CreateAsync(Testing.Databases.DatabaseEngine.Sqlite);
        var shop = open is null ? await ShopFixture.OpenAsync(database) : await open(database);
        if (prepare is not null)
        {
            await prepare(shop);
        }

        (await shop.Get<MakeAccountHandler>().HandleAsync(new MakeAccount(Some.Id(), SignInName, "J. Karrow", Password, [role], "light"), Actor.Program, default)).Done();
        return await StartAsync(database, shop);
    }

    private static async Task<ShopHost> StartAsync(TestDatabase database, ShopFixture shop)
    {
        var folder = Directory.CreateTempSubdirectory("shopfluids-web-").FullName;
        var settings = new ShopSettings { DataFolder = folder, Engine = Web.Settings.DatabaseEngine.Sqlite, ConnectionString = database.ConnectionString, Urls = [] };
        var app = ShopApp.Build(settings, builder =>
        {
            builder.WebHost.UseTestServer();
            builder.Logging.ClearProviders();
            builder.Services.AddSingleton<TimeProvider>(shop.Clock);
            builder.Services.Configure<PasswordHasherOptions>(o => o.IterationCount = 1);
        });
        await app.StartAsync();
        var host = new ShopHost(database, shop, app, folder);
        await host.SignInAsync();
        return host;
    }

    public IServiceProvider Services => _app.Services;

    /// <summary>A page as a server draws it that was started just now, on the same database.</summary>
    public async Task<Page> DrawAnewAsync(string address)
    {
        var another = await StartAsync(_database, Shop);
        var page = await another.GetAsync(address);
        await another.StopAsync();
        return page;
    }

    /// <summary>The same person goes on in a browser that was never here.</summary>
    public Task UseAnotherBrowserAsync()
    {
        foreach (Cookie cookie in _cookies.GetAllCookies())
        {
            cookie.Expired = true;
        }

        return SignInAsync();
    }

    public async Task SignInAsync(string name = SignInName) =>
        Assert.Equal(HttpStatusCode.Redirect, (await PostAsync("/account/sign-in", new() { ["name"] = name, ["password"] = Password })).Status);

    public async Task<Page> GetAsync(string address)
    {
        using var response = await _http.GetAsync(new Uri(address, UriKind.Relative));
        return await Page.OfAsync(response);
    }

    /// <summary>Opens the page that holds the form, takes its hidden fields along and posts.</summary>
    /// <param name="from">The page with the form; the address itself where that is left out.</param>
    public async Task<Page> PostAsync(string address, Dictionary<string, string> typed, string? from = null)
    {
        var page = await GetAsync(from ?? address);
        var fields = new Dictionary<string, string>(typed);
        fields.TryAdd("__RequestVerificationToken", page.Hidden("__RequestVerificationToken"));
        if (page.HasHidden("id"))
        {
            fields.TryAdd("id", page.Hidden("id"));
        }

        return await SendAsync(address, fields);
    }

    /// <summary>The sign-in runs out while a page stands open.</summary>
    public void EndSignIn()
    {
        var signIn = Assert.Single(_cookies.GetAllCookies(), c => c.Name == "shopfluids");
        signIn.Expired = true;
    }

    public async Task<Page> SendAsync(string address, Dictionary<string, string> fields)
    {
        using var content = new FormUrlEncodedContent(fields);
        using var response = await _http.PostAsync(new Uri(address, UriKind.Relative), content);
        return await Page.OfAsync(response);
    }

    /// <summary>As a browser sends a form with a file.</summary>
    /// <param name="savedBy">Sent by the tablet's script for this person; null: by the browser itself.</param>
    public async Task<Page> SendFileAsync(string address, Dictionary<string, string> fields, byte[] file, string fileName = "photo.jpg", Guid? savedBy = null)
    {
        using var content = new MultipartFormDataContent();
        foreach (var (name, value) in fields)
        {
            content.Add(new StringContent(value), name);
        }

        content.Add(new ByteArrayContent(file), "photo", fileName);
        if (savedBy is { } person)
        {
            content.Headers.Add("X-ShopFluids", "1");
            content.Headers.Add("X-ShopFluids-Person", person.ToString());
        }

        using var response = await _http.PostAsync(new Uri(address, UriKind.Relative), content);
        return await Page.OfAsync(response);
    }

    /// <summary>What the entry page's script asks while somebody types.</summary>
    public async Task<JsonElement> PreviewAsync(object reading)
    {
        using var content = JsonContent.Create(reading);
        content.Headers.Add("X-ShopFluids", "1");
        using var response = await _http.PostAsync(new Uri("/api/v1/readings/preview", UriKind.Relative), content);
        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        return await response.Content.ReadFromJsonAsync<JsonElement>();
    }

    /// <summary>A file, with its headers.</summary>
    public async Task<HttpResponseMessage> FetchAsync(string address, string? knownTag = null)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri(address, UriKind.Relative));
        if (knownTag is not null)
        {
            request.Headers.TryAddWithoutValidation("If-None-Match", knownTag);
        }

        return await _http.SendAsync(request);
    }

    /// <summary>As the tablet's script sends what waited, for whoever saved it.</summary>
    public async Task<Page> SendWaitingAsync(string address, Dictionary<string, string> fields, Guid savedBy)
    {
        using var content = new FormUrlEncodedContent(fields);
        content.Headers.Add("X-ShopFluids", "1");
        content.Headers.Add("X-ShopFluids-Person", savedBy.ToString());
        using var response = await _http.PostAsync(new Uri(address, UriKind.Relative), content);
        return await Page.OfAsync(response);
    }

    public async ValueTask DisposeAsync()
    {
        await StopAsync();
        await Shop.DisposeAsync();
        await _database.DisposeAsync();
    }

    private async Task StopAsync()
    {
        _http.Dispose();
        await _app.StopAsync();
        await _app.DisposeAsync();
        Directory.Delete(_folder, recursive: true);
    }

    /// <summary>What came back.</summary>
    public sealed partial record Page(HttpStatusCode Status, string Html, string Location, string ContentPolicy)
    {
        public static async Task<Page> OfAsync(HttpResponseMessage response) => new(
            response.StatusCode,
            await response.Content.ReadAsStringAsync(),
            response.Headers.Location?.OriginalString ?? "",
            response.Headers.TryGetValues("Content-Security-Policy", out var values) ? string.Join(' ', values) : "");

        /// <summary>The words of the page, with single blanks.</summary>
        public string Text => WebUtility.HtmlDecode(Blanks().Replace(Tags().Replace(Html, " "), " "));

        public bool HasHidden(string name) => Html.Contains($"name=\"{name}\"", StringComparison.Ordinal);

        public string Hidden(string name)
        {
            var match = Regex.Match(Html, $"<input[^>]*name=\"{name}\"[^>]*>", RegexOptions.None, TimeSpan.FromSeconds(1));
            Assert.True(match.Success, $"No field {name} in: {Text}");
            return WebUtility.HtmlDecode(Value().Match(match.Value).Groups["value"].Value);
        }

        [GeneratedRegex("value=\"(?<value>[^\"]*)\"", RegexOptions.None, 1000)]
        private static partial Regex Value();

        [GeneratedRegex("<[^>]*>", RegexOptions.None, 1000)]
        private static partial Regex Tags();

        [GeneratedRegex(@"\s+", RegexOptions.None, 1000)]
        private static partial Regex Blanks();
    }

    private sealed class CookieKeeper(CookieContainer cookies) : DelegatingHandler
    {
        protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
        {
            var address = request.RequestUri ?? throw new InvalidOperationException("A request has an address.");
            request.Headers.TryAddWithoutValidation("Cookie", cookies.GetCookieHeader(address));
            var response = await base.SendAsync(request, cancellationToken);
            if (response.Headers.TryGetValues("Set-Cookie", out var set))
            {
                foreach (var cookie in set)
                {
                    cookies.SetCookies(address, cookie);
                }
            }

            return response;
        }
    }
}
