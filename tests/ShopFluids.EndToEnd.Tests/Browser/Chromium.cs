using Microsoft.Playwright;
using ShopFluids.EndToEnd.Tests.Browser;
using Xunit;

[assembly: AssemblyFixture(typeof(Chromium))]

namespace ShopFluids.EndToEnd.Tests.Browser;

/// <summary>One headless browser for all tests: the one that the system's packages bring, never a downloaded one.</summary>
public sealed class Chromium : IAsyncLifetime
{
    // The shell draws the same without windows, and starts and runs on half the processor time of the whole browser.
    private static readonly string[] Files = ["/usr/bin/chromium-headless-shell", "/usr/bin/chromium"];

    private static readonly string[] Flags =
        ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"];

    private IPlaywright? _playwright;
    private IBrowser? _browser;

    public IBrowser Browser => _browser ?? throw new InvalidOperationException("The browser is not open.");

    private static string Executable => Environment.GetEnvironmentVariable("SHOPFLUIDS_TEST_CHROMIUM") is { Length: > 0 } given ? given : Files.FirstOrDefault(File.Exists) ?? Files[^1];

    /// <summary>A browser of its own that keeps its data in a folder.</summary>
    public Task<IBrowserContext> OpenOwnAsync(string folder, Uri address) =>
        (_playwright ?? throw new InvalidOperationException("The browser is not open.")).Chromium.LaunchPersistentContextAsync(folder, new()
        {
            ExecutablePath = Executable,
            Args = Flags,
            BaseURL = address.ToString(),
            ViewportSize = new ViewportSize { Width = 800, Height = 1280 },
            Locale = "en-GB",
        });

    public async ValueTask InitializeAsync()
    {
        // A busy machine is slow, not wrong.
        Assertions.SetDefaultExpectTimeout(Visit.PatienceMilliseconds);
        _playwright = await Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions
        {
            ExecutablePath = Executable,
            Args = Flags,
        });
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null)
        {
            await _browser.DisposeAsync();
        }

        _playwright?.Dispose();
    }
}
