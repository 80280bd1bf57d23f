using System.Globalization;
using System.Text.Json;
using Microsoft.Playwright;
using ShopFluids.Core.Wording;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Server;
using ShopFluids.Testing.Shop;

namespace ShopFluids.EndToEnd.Tests.Walks;

/// <summary>A tablet in a bad place: its connection, its page and its person come and go. Says where each reading on it is kept.</summary>
internal sealed class WalkTablet : IAsyncDisposable
{
    private const string Enter = $"/enter/{Some.SumpTag}";

    // Notes of the drafts and of what waits: a note is typed once and never again.
    private const string Kept = """
        () => new Promise((done, fail) => {
            const note = fields => fields.find(([name]) => name === 'note')?.[1] ?? '';
            const drafts = Object.keys(localStorage).filter(k => k.startsWith('shopfluids.draft.')).map(k => note(JSON.parse(localStorage.getItem(k)).fields));
            const opening = indexedDB.open('shopfluids', 1);
            opening.onupgradeneeded = () => opening.result.createObjectStore('outbox', { keyPath: 'id' });
            opening.onerror = () => fail(opening.error);
            opening.onsuccess = () => {
                const asked = opening.result.transaction('outbox').objectStore('outbox').getAll();
                asked.onsuccess = () => { opening.result.close(); done(JSON.stringify({ Drafts: drafts, Waiting: asked.result.map(i => note(i.fields)) })); };
            };
        })
        """;

    private const string KeepsPages = $$"""async () => (await Promise.all(['{{Enter}}', '/round'].map(f => caches.match(f)))).every(kept => kept)""";

    private readonly IBrowserContext _context;
    private IPage _page;

    private WalkTablet(IBrowserContext context, IPage page)
    {
        _context = context;
        _page = page;
    }

    /// <summary>What happens to the next reading that is sent.</summary>
    public Mishap Next { get; set; }

    /// <summary>The note of what is typed and neither saved nor thrown away.</summary>
    public string? Typed { get; private set; }

    public bool IsOffline { get; private set; }

    public bool IsSignedIn { get; private set; }

    private bool IsAtEntry => new Uri(_page.Url).AbsolutePath == Enter;

    public static async Task<WalkTablet> OpenAsync(Chromium chromium, Uri address)
    {
        var context = await chromium.Browser.NewContextAsync(new() { BaseURL = address.ToString(), Locale = "en-GB", ViewportSize = new() { Width = 800, Height = 1280 } });
        context.SetDefaultTimeout(Visit.PatienceMilliseconds);
        var tablet = new WalkTablet(context, await context.NewPageAsync());
        await context.RouteAsync(url => url.EndsWith(Enter, StringComparison.Ordinal), tablet.PassOnAsync);
        await tablet.SignInAsync();
        return tablet;
    }

    /// <summary>Signs in, and waits until the tablet keeps the pages: whoever loses the connection sooner has none.</summary>
    public async Task SignInAsync()
    {
        await _page.GotoAsync("/account/sign-in");
        await _page.GetByLabel(Texts.Account_SignInName, new() { Exact = true }).FillAsync("op");
        await _page.GetByLabel(Texts.Account_Password, new() { Exact = true }).FillAsync(SmallShop.Password);
        await _page.GetByRole(AriaRole.Button, new() { Name = Texts.Account_SignIn, Exact = true }).ClickAsync();
        await _page.WaitForURLAsync("**/round");
        await _page.GotoAsync("/round?all=1");
        await Waiting.UntilAsync(() => _page.EvaluateAsync<bool>(KeepsPages));
        IsSignedIn = true;
    }

    /// <summary>The sign-in ends while the tablet lies there.</summary>
    public async Task ForgetSignInAsync()
    {
        await _context.ClearCookiesAsync();
        IsSignedIn = false;
    }

    public async Task SetOfflineAsync(bool isOffline)
    {
        await _context.SetOfflineAsync(isOffline);
        IsOffline = isOffline;
    }

    /// <summary>Types a reading, or changes the one that is typed already.</summary>
    public async Task TypeAsync(string note, decimal brix)
    {
        if (!IsAtEntry)
        {
            await GoToEntryAsync();
        }

        await ReadyAsync();
        Typed ??= note;
        await _page.Locator("textarea[name=note]").EvaluateAsync("(box, text) => { box.value = text; box.dispatchEvent(new Event('input', { bubbles: true })); }", Typed);
        await _page.Locator("input[name='value-concentration']").FillAsync(brix.ToString(CultureInfo.InvariantCulture));
        await _page.Locator("input[name='value-ph']").FillAsync("9.0");
        await _page.Locator("input[name='value-level']").FillAsync("300");
    }

    /// <summary>Presses save where something is typed, and waits for what comes of it.</summary>
    public async Task SaveAsync()
    {
        if (!IsAtEntry)
        {
            await GoToEntryAsync();
        }

        await ReadyAsync();
        await _page.GetByRole(AriaRole.Button, new() { Name = Texts.Entry_Save, Exact = true }).ClickAsync();
        await Waiting.UntilAsync(async () => _page.Url.Contains("/saved/", StringComparison.Ordinal) || IsAtSignIn || await IsKeptAsync());
        if (IsAtSignIn)
        {
            IsSignedIn = false;
            return;
        }

        Typed = null;
    }

    public async Task DiscardAsync()
    {
        await GoToEntryAsync();
        await ReadyAsync();
        await _page.GetByRole(AriaRole.Button, new() { Name = Texts.Outbox_Discard }).ClickAsync();
        await _page.WaitForFunctionAsync("() => Object.keys(localStorage).every(k => !k.startsWith('shopfluids.draft.'))");
        Typed = null;
    }

    public Task LeaveAsync() => _page.GotoAsync("/round");

    public Task ReloadAsync() => _page.ReloadAsync();

    /// <summary>The tab is closed and opened again.</summary>
    public async Task CloseAndOpenAsync()
    {
        var old = _page;
        _page = await _context.NewPageAsync();
        await old.CloseAsync();
        await _page.GotoAsync("/round");
    }

    /// <summary>What the tablet does by itself when it finds a connection.</summary>
    public Task WakeAsync() => _page.EvaluateAsync("() => dispatchEvent(new Event('online'))");

    public async Task<KeptNotes> KeptAsync()
    {
        // Between two pages nothing can be asked.
        await _page.WaitForLoadStateAsync(LoadState.DOMContentLoaded);
        var kept = await _page.EvaluateAsync<string>(Kept);
        return JsonSerializer.Deserialize<KeptNotes>(kept) ?? throw new InvalidOperationException("The tablet did not say what it keeps.");
    }

    public async ValueTask DisposeAsync() => await _context.DisposeAsync();

    private bool IsAtSignIn => new Uri(_page.Url).AbsolutePath.StartsWith("/account/", StringComparison.Ordinal);

    public async Task GoToEntryAsync()
    {
        await _page.GotoAsync(Enter);
        if (IsAtSignIn)
        {
            await SignInAsync();
            await _page.GotoAsync(Enter);
        }
    }

    private async Task<bool> IsKeptAsync() => IsAtEntry && await _page.Locator("#kept").IsVisibleAsync();

    private async Task ReadyAsync() => await _page.WaitForFunctionAsync("() => 'ready' in document.body.dataset && !document.getElementById('entry').hidden");

    private async Task PassOnAsync(IRoute route)
    {
        var mishap = route.Request.Method == "POST" ? Next : Mishap.None;
        Next = route.Request.Method == "POST" ? Mishap.None : Next;
        switch (mishap)
        {
            case Mishap.RequestLost:
                await route.AbortAsync();
                return;
            case Mishap.AnswerLost:
                await route.FetchAsync();
                await route.AbortAsync();
                return;
            case Mishap.Busy:
                await route.FulfillAsync(new() { Status = 503 });
                return;
            default:
                await route.ContinueAsync();
                return;
        }
    }
}

/// <summary>What happens to a reading on its way.</summary>
internal enum Mishap
{
    /// <summary>Nothing.</summary>
    None,

    /// <summary>It does not reach the server.</summary>
    RequestLost,

    /// <summary>The server stores it, and the tablet never hears so.</summary>
    AnswerLost,

    /// <summary>Something before the server answers that it is busy.</summary>
    Busy,
}

/// <summary>The notes of the readings on a tablet.</summary>
/// <param name="Drafts">Typed.</param>
/// <param name="Waiting">Saved, and not known to be stored.</param>
internal sealed record KeptNotes(IReadOnlyList<string> Drafts, IReadOnlyList<string> Waiting);
