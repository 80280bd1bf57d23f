using System.Collections.Concurrent;
using Microsoft.Playwright;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Browser;

/// <summary>One person at one screen: a browser with its own cookies and one page, which is listened to for everything that goes wrong.</summary>
internal sealed class Visit : IAsyncDisposable
{
    public const float PatienceMilliseconds = 30_000;
    private static readonly TimeSpan StyleStep = TimeSpan.FromMilliseconds(50);
    private readonly ConcurrentQueue<(string Text, string Location)> _faults = new();
    private readonly ConcurrentQueue<string> _visited = new();
    private readonly Uri _address;
    private readonly bool _hasScript;

    private Visit(IPage page, Uri address, bool hasScript)
    {
        Page = page;
        _address = address;
        _hasScript = hasScript;
        page.Console += (_, message) => Hear(message);
        page.PageError += (_, error) => _faults.Enqueue((error, page.Url));
        page.Request += (_, request) => Watch(request);
    }

    public IPage Page { get; }

    /// <param name="signedIn">Cookies of a person who has signed in.</param>
    public static async Task<Visit> OpenAsync(Chromium chromium, Uri address, string? signedIn = null, int width = 800, int height = 1280, bool hasScript = true)
    {
        var context = await chromium.Browser.NewContextAsync(new BrowserNewContextOptions
        {
            BaseURL = address.ToString(),
            StorageState = signedIn,
            ViewportSize = new ViewportSize { Width = width, Height = height },
            JavaScriptEnabled = hasScript,
            Locale = "en-GB",
            TimezoneId = "Europe/London",
            ReducedMotion = ReducedMotion.Reduce,
        });
        context.SetDefaultTimeout(PatienceMilliseconds);
        return new Visit(await context.NewPageAsync(), address, hasScript);
    }

    /// <summary>Opens a page and waits until its contents stand there.</summary>
    public async Task<IResponse> GoAsync(string path)
    {
        var response = await Page.GotoAsync(path) ?? throw new InvalidOperationException($"{path} gave no answer.");
        await SettleAsync();
        return response;
    }

    /// <summary>A desk page is there when its island has drawn itself and has loaded what it shows.</summary>
    public async Task SettleAsync()
    {
        await Page.WaitForLoadStateAsync(LoadState.Load);
        await Page.Locator("h1").First.WaitForAsync();
        await Assertions.Expect(Page.Locator("main section[aria-busy=true]")).ToHaveCountAsync(0);
        if (_hasScript)
        {
            // Drawn ahead, and its circuit is not there yet.
            await Assertions.Expect(Page.Locator("[data-ahead]")).ToHaveCountAsync(0);
        }

        // A page of the desk may ask for a style sheet of its own when it is drawn.
        while (_hasScript && !await Page.EvaluateAsync<bool>("() => [...document.querySelectorAll('link[rel=stylesheet]')].every(link => link.sheet)"))
        {
            await Task.Delay(StyleStep);
        }
    }

    public Task ThemeAsync(string theme) => Page.EvaluateAsync("theme => document.documentElement.dataset.theme = theme", theme);

    public Task SizeAsync(int width, int height) => Page.SetViewportSizeAsync(width, height);

    /// <summary>No script failed, nothing broke the content policy, and no request left our server.</summary>
    public void ExpectNoFaults()
    {
        // The browser calls it an error of loading when a page itself answers "not found" or "not saved".
        var faults = _faults.Where(f => !(f.Text.StartsWith("Failed to load resource", StringComparison.Ordinal) && _visited.Any(v => f.Location.StartsWith(v, StringComparison.Ordinal)))).ToList();
        Assert.True(faults.Count == 0, string.Join('\n', faults));
    }

    public async ValueTask DisposeAsync() => await Page.Context.DisposeAsync();

    private void Hear(IConsoleMessage message)
    {
        if (message.Type == "error")
        {
            _faults.Enqueue((message.Text, message.Location));
        }
    }

    private void Watch(IRequest request)
    {
        if (request.IsNavigationRequest)
        {
            _visited.Enqueue(request.Url);
        }

        if (Uri.TryCreate(request.Url, UriKind.Absolute, out var target) && target.Scheme is "http" or "https" && target.Authority != _address.Authority)
        {
            _faults.Enqueue(("Asked another host", request.Url));
        }
    }
}
