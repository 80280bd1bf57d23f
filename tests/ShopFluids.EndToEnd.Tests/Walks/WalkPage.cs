using System.Diagnostics;
using Microsoft.Playwright;
using ShopFluids.EndToEnd.Tests.Browser;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Walks;

/// <summary>
/// The page that is open on a tablet, without waiting for more than it must. It is pressed by its own script: whether a finger finds the
/// button is asked by other tests.
/// </summary>
internal sealed class WalkPage(IBrowserContext browser)
{
    private static readonly TimeSpan Patience = TimeSpan.FromMilliseconds(Visit.PatienceMilliseconds);
    private static readonly TimeSpan Step = TimeSpan.FromMilliseconds(20);

    // A page that has been told to go shows what it was until the next is there.
    private const string Where = """
        mark => {
            const shown = what => { const part = document.querySelector(what); return part && !part.hidden; };
            const form = document.getElementById('entry');
            return location.protocol === 'chrome-error:' ? 'NoPage'
                : document.readyState === 'loading' || mark in document.documentElement.dataset && !shown('#locked') ? 'Moving'
                : document.getElementById('pin-box') ? 'Pin'
                : document.querySelector('.tiles') ? 'Tiles'
                : shown('#locked') ? 'Locked'
                : shown('#kept') ? 'Kept'
                : form ? form.ariaBusy === 'true' || !('ready' in document.body.dataset) ? 'Moving' : form.querySelector('button[name=confirm]') ? 'Question' : 'Entry'
                : document.body.dataset.stored ? 'Stored' : 'Elsewhere';
        }
        """;

    private const string Rest = $"mark => {{ const place = ({Where})(mark); return place !== 'Moving' && place; }}";
    private const string Left = "left";
    private const float RestStep = 15;
    private const string Leave = "document.documentElement.dataset.left = '';";

    private IPage? _page;

    private IPage Page => _page ?? throw new InvalidOperationException("No page is open.");

    public async Task<WalkPlace> OpenAsync(string path)
    {
        var before = _page;
        _page = await browser.NewPageAsync();
        await (before?.CloseAsync() ?? Task.CompletedTask);
        return await GoAsync(path);
    }

    public Task CloseAsync() => Page.CloseAsync();

    public Task<WalkPlace> GoAsync(string path) => MoveAsync(() => Page.GotoAsync(path, new() { WaitUntil = WaitUntilState.Commit }));

    public Task<WalkPlace> ReloadAsync() => MoveAsync(() => Page.ReloadAsync(new() { WaitUntil = WaitUntilState.Commit }));

    public Task<WalkPlace> SettleAsync() => SettleAsync(Left);

    /// <summary>Person, and the note in the box: empty on an empty page.</summary>
    public async Task<(Guid Person, string Note)> FormAsync()
    {
        var form = await Page.EvaluateAsync<string[]>("() => [document.body.dataset.person, document.querySelector('#entry [name=note]').value]");
        return (Guid.Parse(form[0]), form[1]);
    }

    public Task TypeAsync(string box, string text) => Page.EvaluateAsync("""
        ([name, text]) => {
            const box = document.querySelector(`#entry [name="${name}"]`);
            box.value = text;
            box.dispatchEvent(new Event('input', { bubbles: true }));
        }
        """, new[] { box, text });

    public async Task<WalkPlace> SaveAsync(int times = 1)
    {
        await PressSaveAsync(times);
        return await SettleAsync();
    }

    public Task PressSaveAsync(int times = 1) =>
        Page.EvaluateAsync("times => { for (let n = 0; n < times; n++) document.querySelector('.foot button[form=entry]').click(); }", times);

    public async Task<WalkPlace> KeepValueAsync()
    {
        await Page.EvaluateAsync("() => document.querySelector('button[name=confirm]').click()");
        return await SettleAsync();
    }

    public async Task<WalkPlace> ThrowAwayAsync()
    {
        await Page.EvaluateAsync($"() => {{ {Leave} document.getElementById('discard').click(); }}");
        return await SettleAsync();
    }

    /// <summary>Hands the tablet to somebody else: to the tiles with a server, to the question who is there without.</summary>
    public async Task<WalkPlace> SwitchAsync()
    {
        if (!await Page.EvaluateAsync<bool>("() => { const form = document.getElementById('switch'); document.documentElement.dataset.asked = ''; form?.requestSubmit(); return !!form; }"))
        {
            return WalkPlace.Elsewhere;
        }

        return await SettleAsync("asked");
    }

    public async Task<WalkPlace> GoOnAsync()
    {
        await Page.EvaluateAsync("() => document.getElementById('unlock').click()");
        return await SettleAsync();
    }

    public async Task<WalkPlace> ChooseAsync(string person)
    {
        await Page.EvaluateAsync($"name => {{ {Leave} [...document.querySelectorAll('.tile')].find(tile => tile.textContent.includes(name)).click(); }}", person);
        return await SettleAsync();
    }

    public async Task<WalkPlace> TypePinAsync(string pin)
    {
        await Page.EvaluateAsync($"pin => {{ {Leave} const box = document.getElementById('pin-box'); box.value = pin; box.form.requestSubmit(); }}", pin);
        return await SettleAsync();
    }

    /// <summary>The page looks to what waits as it does when the tablet is woken, and not only each quarter of a minute.</summary>
    public async Task WakeAsync()
    {
        if (await WhereAsync() is not (WalkPlace.NoPage or WalkPlace.Moving))
        {
            await Page.EvaluateAsync("() => document.dispatchEvent(new Event('visibilitychange'))");
        }
    }

    /// <summary>What stands on it, for the report of a walk that failed.</summary>
    public async Task<string> TextAsync() => $"{Page.Url}: {await Page.EvaluateAsync<string>("() => (document.body?.innerText ?? '').replace(/\\s+/g, ' ').slice(0, 300)")}";

    public static async Task EventuallyAsync(Func<Task<bool>> isSo, string otherwise)
    {
        var waited = Stopwatch.StartNew();
        while (!await isSo())
        {
            Assert.True(waited.Elapsed < Patience, otherwise);
            await Task.Delay(Step);
        }
    }

    private async Task<WalkPlace> MoveAsync(Func<Task> move)
    {
        try
        {
            await move();
        }
        catch (PlaywrightException fault) when (fault.Message.Contains("net::ERR_", StringComparison.Ordinal))
        {
            // No way to the server, and the tablet keeps no such page: the browser shows its own.
            await EventuallyAsync(async () => await WhereAsync() == WalkPlace.NoPage, fault.Message);
        }

        return await SettleAsync();
    }

    // The page waits for itself: asking it again and again from here would cost more than all else.
    private async Task<WalkPlace> SettleAsync(string mark)
    {
        var place = WalkPlace.Moving;
        await EventuallyAsync(
            async () =>
            {
                place = await AskAsync(async () => await (await Page.WaitForFunctionAsync(Rest, mark, new() { PollingInterval = RestStep })).JsonValueAsync<string>());
                return place != WalkPlace.Moving;
            },
            "The page does not come to rest.");
        return place;
    }

    private Task<WalkPlace> WhereAsync() => AskAsync(() => Page.EvaluateAsync<string>(Where, Left));

    private static async Task<WalkPlace> AskAsync(Func<Task<string>> ask)
    {
        try
        {
            return Enum.Parse<WalkPlace>(await ask());
        }
        catch (PlaywrightException fault) when (fault.Message.Contains("context was destroyed", StringComparison.Ordinal) || fault.Message.Contains("navigat", StringComparison.OrdinalIgnoreCase))
        {
            return WalkPlace.Moving;
        }
    }
}
