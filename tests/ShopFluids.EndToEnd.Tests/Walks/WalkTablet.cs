using System.Diagnostics;
using Microsoft.Playwright;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Server;
using ShopFluids.Testing.Databases;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Walks;

/// <summary>One shared tablet with its sump, and another tablet at the same sump: walked with again and again.</summary>
internal sealed class WalkTablet : IAsyncDisposable
{
    private static readonly (string Name, string Pin)[] People = [(StationPeople.Anna, StationPeople.AnnaPin), (StationPeople.Bert, StationPeople.BertPin)];

    private const string Sent = "sent";

    // The least that is drawn soonest.
    private const int Width = 360;
    private const int Height = 640;

    private static readonly TimeSpan Patience = TimeSpan.FromMilliseconds(Visit.PatienceMilliseconds);

    private readonly SmallShop _shop;
    private readonly FaultyNetwork _network;
    private readonly Tablet _tablet;
    private readonly Visit _second;
    private readonly IPage _onlooker;
    private readonly WalkPage _page;
    private readonly WalkPage _secondPage;
    private readonly string _enter;
    private readonly string _door;
    private readonly Guid[] _ids = new Guid[People.Length];
    private int _person;
    private bool _isSignedIn;
    private bool _isOffline;
    private bool _isServerKilled;

    private WalkTablet(SmallShop shop, FaultyNetwork network, Tablet tablet, Visit second, IPage onlooker, string sump)
    {
        (_shop, _network, _tablet, _second, _onlooker) = (shop, network, tablet, second, onlooker);
        _page = new WalkPage(tablet.Page.Context);
        _secondPage = new WalkPage(second.Page.Context);
        _enter = $"/enter/{sump}";
        _door = $"/account/station?returnUrl={Uri.EscapeDataString(_enter)}";
    }

    private bool CanReach => !_isOffline && !_isServerKilled && _network.State is NetworkState.Fine or NetworkState.AnswersLost;

    public static async Task<WalkTablet> OpenAsync(Chromium chromium, SmallShop shop, string sump)
    {
        var network = new FaultyNetwork(shop.Server.Address);
        var tablet = await StationPeople.OpenTabletAsync(chromium, shop, network.Address, width: Width, height: Height);
        var second = await Visit.OpenAsync(chromium, shop.Server.Address, width: Width, height: Height);
        await SignIn.AsAsync(second, "op", SmallShop.Password);

        // A page without a script.
        await tablet.Page.GotoAsync("/fonts/OFL-text.txt");
        var walk = new WalkTablet(shop, network, tablet, second, tablet.Page, sump);
        await walk._page.OpenAsync("/round");
        await walk._secondPage.OpenAsync(walk._enter);
        foreach (var person in new[] { 1, 0 })
        {
            await walk.HandToAsync(person);
            walk._ids[person] = (await walk._page.FormAsync()).Person;
        }

        return walk;
    }

    /// <summary>Walks, and asks after every step whether everything is where it must be.</summary>
    /// <param name="killsServer">The server itself ends and starts, not only the way to it.</param>
    public async Task WalkAsync(WalkPlan plan, TestDatabase database, bool killsServer, CancellationToken cancellationToken)
    {
        var ledger = new WalkLedger($"walk {plan.Seed}", database);
        var done = new List<string>();
        try
        {
            foreach (var step in plan.Steps)
            {
                cancellationToken.ThrowIfCancellationRequested();
                done.Add($"{step.Event}");
                done[^1] += $": {await DoAsync(step, ledger, killsServer)}";
                await ExpectAllInPlaceAsync(ledger, cancellationToken);
            }

            done.Add("end");
            await FinishAsync(plan, ledger, cancellationToken);
        }
        catch (Exception fault) when (!cancellationToken.IsCancellationRequested)
        {
            Assert.Fail($"Walk {plan.Seed}, to be walked again alone with SHOPFLUIDS_WALK_SEED={plan.Seed}: {fault.Message}\n{string.Join('\n', done)}\n{await _page.TextAsync()}");
        }
    }

    public async ValueTask DisposeAsync()
    {
        await _second.DisposeAsync();
        await _tablet.DisposeAsync();
        await _network.DisposeAsync();
    }

    private async Task<string> DoAsync(WalkStep step, WalkLedger ledger, bool killsServer)
    {
        // Almost every step leaves the page, which may be sending just now.
        ledger.DisturbWaiting();
        switch (step.Event)
        {
            case WalkEvent.Type:
                return await TypeAsync(step.Choice, ledger) is { } reading ? reading.Note : "no page to type into";
            case WalkEvent.Save:
                return await SaveAsync(step.Choice, ledger, times: 1);
            case WalkEvent.SaveTwice:
                return await SaveAsync(step.Choice, ledger, times: 2);
            case WalkEvent.SaveAndBreakOff:
                return await BreakOffAsync(step.Choice, ledger);
            case WalkEvent.Reload:
                return $"{await _page.ReloadAsync()}";
            case WalkEvent.CloseAndReopen:
                await _page.CloseAsync();
                return $"{await _page.OpenAsync(PageOf(step.Choice))}";
            case WalkEvent.GoOnline:
                await GoOnlineAsync();
                return "fine";
            case WalkEvent.GoOffline:
                await SetOfflineAsync(true);
                return "offline";
            case WalkEvent.AnswersGetLost:
                await _network.BecomeAsync(NetworkState.AnswersLost);
                return "from here on";
            case WalkEvent.ServerRefuses:
                await _network.BecomeAsync(NetworkState.Refusing);
                return "from here on";
            case WalkEvent.ServerIsGone:
                return await LoseServerAsync(killsServer);
            case WalkEvent.SignInEnds:
                return await EndSignInAsync();
            case WalkEvent.SignInAgain:
                return CanReach ? $"{await LetInAsync()}" : "no server to ask for a PIN";
            case WalkEvent.TakeOver:
                return await TakeOverAsync();
            case WalkEvent.SecondTabletSaves:
                return await SaveAtSecondAsync(step.Choice, ledger);
            case WalkEvent.AwaitReplay:
                return await AwaitReplayAsync();
            default:
                throw new InvalidOperationException($"Nobody knows how to do {step.Event}.");
        }
    }

    /// <returns>What the form holds now; null where there is no form to be had.</returns>
    private async Task<WalkReading?> TypeAsync(int choice, WalkLedger ledger)
    {
        if (!await ComeToFormAsync())
        {
            return null;
        }

        return await TypeAsync(_page, choice, ledger);
    }

    private static async Task<WalkReading> TypeAsync(WalkPage page, int choice, WalkLedger ledger)
    {
        var (person, note) = await page.FormAsync();
        var reading = note.Length > 0 ? ledger.Of(note) : ledger.Begin(person);
        Assert.True(reading.State == WalkReadingState.Typed, $"{note} is {reading.State} and stands on the page to be typed.");
        string[] boxes = (choice % 3) switch { 0 => ["concentration"], 1 => ["concentration", "ph"], _ => ["concentration", "ph", "level"] };
        foreach (var box in boxes)
        {
            reading.Values[box] = WalkLedger.ValueOf(box, choice);
            await page.TypeAsync($"value-{box}", reading.Values[box]);
        }

        if (note.Length == 0)
        {
            await page.TypeAsync("note", reading.Note);
        }

        return reading;
    }

    private async Task<string> SaveAsync(int choice, WalkLedger ledger, int times)
    {
        if (await FilledAsync(choice, ledger) is not { } reading)
        {
            return "no page to save";
        }

        return await SaveAsync(_page, reading, times);
    }

    private async Task<string> SaveAsync(WalkPage page, WalkReading reading, int times)
    {
        reading.MayBeInFlight = _network.State == NetworkState.AnswersLost;
        var place = await page.SaveAsync(times);
        while (place == WalkPlace.Question)
        {
            place = await page.KeepValueAsync();
        }

        Assert.True(place is WalkPlace.Kept or WalkPlace.Stored or WalkPlace.Pin or WalkPlace.Tiles or WalkPlace.NoPage or WalkPlace.Elsewhere, $"{reading.Note} was not saved: {place}.");
        reading.State = place is WalkPlace.Kept or WalkPlace.Stored ? WalkReadingState.Saved : WalkReadingState.Typed;
        return $"{reading.Note}, {place}";
    }

    private async Task<WalkReading?> FilledAsync(int choice, WalkLedger ledger) => !await ComeToFormAsync() ? null
        : (await _page.FormAsync()).Note is { Length: > 0 } note ? ledger.Of(note) : await TypeAsync(_page, choice, ledger);

    // Switched off before the answer is there: after the server has the reading, or at whatever moment it happens to be.
    private async Task<string> BreakOffAsync(int choice, WalkLedger ledger)
    {
        if (await FilledAsync(choice, ledger) is not { } reading)
        {
            return "no page to save";
        }

        (reading.State, reading.MayBeInFlight) = (WalkReadingState.BrokenOff, true);
        var (state, lost) = (_network.State, _network.Lost);
        var isHeld = choice % 2 == 0 && CanReach;
        if (isHeld)
        {
            await _network.BecomeAsync(NetworkState.AnswersHeld);
        }

        await _page.PressSaveAsync();
        if (isHeld)
        {
            await WalkPage.EventuallyAsync(() => Task.FromResult(_network.Lost > lost), "No answer was held.");
        }

        await _page.CloseAsync();
        await _network.BecomeAsync(state);
        return $"{reading.Note}{(isHeld ? ", answer held" : "")}, {await _page.OpenAsync(PageOf(choice / 2))}";
    }

    private async Task<string> LoseServerAsync(bool killsServer)
    {
        if (killsServer)
        {
            _shop.Server.Kill();
            _isServerKilled = true;
            return "killed";
        }

        await _network.BecomeAsync(NetworkState.Gone);
        return "connections refused";
    }

    // Ended at the server: neither the page nor the tablet knows.
    private async Task<string> EndSignInAsync()
    {
        if (_isServerKilled)
        {
            return "no server";
        }

        var address = new Uri(_shop.Server.Address, "/account/station/lock").ToString();
        await using var answer = await _tablet.Page.Context.APIRequest.PostAsync(address, new() { Headers = new Dictionary<string, string> { ["X-ShopFluids"] = "1" } });
        Assert.Equal(204, answer.Status);
        _isSignedIn = false;
        return "ended";
    }

    private async Task<string> TakeOverAsync()
    {
        var place = await _page.SettleAsync();
        if (place is not (WalkPlace.Tiles or WalkPlace.Pin or WalkPlace.Locked))
        {
            place = await _page.SwitchAsync();
        }

        if (place == WalkPlace.Locked)
        {
            return $"no server to ask for a PIN, {await _page.GoOnAsync()}";
        }

        _isSignedIn = false;
        return CanReach ? $"{People[1 - _person].Name}, {await HandToAsync(1 - _person)}" : $"no server to ask for a PIN, {place}";
    }

    // Whatever waits on the page for the one who had the tablet.
    private async Task<WalkPlace> HandToAsync(int person)
    {
        _person = person;
        await _page.GoAsync(_door);
        return await LetInAsync();
    }

    private async Task<WalkPlace> LetInAsync()
    {
        var place = await _page.SettleAsync();
        if (place is not (WalkPlace.Tiles or WalkPlace.Pin))
        {
            place = await _page.GoAsync(_door);
        }

        if (place == WalkPlace.Tiles)
        {
            place = await _page.ChooseAsync(People[_person].Name);
        }

        Assert.Equal(WalkPlace.Pin, place);
        place = await _page.TypePinAsync(People[_person].Pin);
        Assert.True(place is WalkPlace.Entry or WalkPlace.Question or WalkPlace.Elsewhere or WalkPlace.NoPage, $"{People[_person].Name} was not let in: {place}.");
        _isSignedIn = place != WalkPlace.NoPage;
        return place;
    }

    private async Task<bool> ComeToFormAsync()
    {
        var place = await _page.SettleAsync();
        if (place == WalkPlace.Locked)
        {
            place = await _page.GoOnAsync();
        }

        if (place is not (WalkPlace.Entry or WalkPlace.Question or WalkPlace.Pin))
        {
            place = await _page.GoAsync(_enter);
        }

        if (place is WalkPlace.Tiles or WalkPlace.Pin && CanReach)
        {
            place = await LetInAsync();
        }

        return place is WalkPlace.Entry or WalkPlace.Question;
    }

    private string PageOf(int choice) => choice % 2 == 0 ? "/round" : _enter;

    private async Task GoOnlineAsync()
    {
        if (_isServerKilled)
        {
            await _shop.RestartAsync();
            _isServerKilled = false;
        }

        await _network.BecomeAsync(NetworkState.Fine);
        await SetOfflineAsync(false);
        await _page.WakeAsync();
    }

    private Task SetOfflineAsync(bool isOffline)
    {
        _isOffline = isOffline;
        return _tablet.Page.Context.SetOfflineAsync(isOffline);
    }

    private async Task<string> SaveAtSecondAsync(int choice, WalkLedger ledger)
    {
        if (_isServerKilled)
        {
            return "no server";
        }

        Assert.Equal(WalkPlace.Entry, await _secondPage.GoAsync(_enter));
        var reading = await TypeAsync(_secondPage, choice, ledger);
        return await SaveAsync(_secondPage, reading, times: 1);
    }

    private async Task<string> AwaitReplayAsync()
    {
        await _page.WakeAsync();
        if (!CanReach || !_isSignedIn || _network.State != NetworkState.Fine || await _page.SettleAsync() is WalkPlace.NoPage or WalkPlace.Pin or WalkPlace.Tiles)
        {
            return "not now";
        }

        await WalkPage.EventuallyAsync(
            async () =>
            {
                await _page.WakeAsync();
                return (await TabletShelf.SeenByAsync(_onlooker)).Outbox.All(f => f.Person != _ids[_person]);
            },
            "What waits is not sent.");
        return Sent;
    }

    // A draft is a draft until somebody saves it or throws it away; everything else has arrived.
    private async Task FinishAsync(WalkPlan plan, WalkLedger ledger, CancellationToken cancellationToken)
    {
        await GoOnlineAsync();
        foreach (var person in new[] { _person, 1 - _person })
        {
            if (!(await TabletShelf.SeenByAsync(_onlooker)).Holds(_ids[person]))
            {
                continue;
            }

            if (person != _person || !_isSignedIn)
            {
                await HandToAsync(person);
            }

            Assert.Equal(WalkPlace.Entry, await _page.GoAsync(_enter));
            Assert.Equal(Sent, await AwaitReplayAsync());
            if ((await _page.FormAsync()).Note is { Length: > 0 } note)
            {
                await EndDraftAsync(plan, ledger.Of(note));
            }

            await ExpectAllInPlaceAsync(ledger, cancellationToken);
        }

        var left = await TabletShelf.SeenByAsync(_onlooker);
        Assert.Empty(left.Drafts.Concat(left.Outbox));
        Assert.All(ledger.Readings, r => Assert.True(r.State is WalkReadingState.Saved or WalkReadingState.ThrownAway, $"{r.Note} is still {r.State}."));
        await ExpectAllInPlaceAsync(ledger, cancellationToken);
    }

    private async Task EndDraftAsync(WalkPlan plan, WalkReading reading)
    {
        if (plan.ThrowsDraftsAway)
        {
            Assert.Equal(WalkPlace.Entry, await _page.ThrowAwayAsync());
            reading.State = WalkReadingState.ThrownAway;
        }
        else
        {
            await SaveAsync(_page, reading, times: 1);
            Assert.Equal(WalkReadingState.Saved, reading.State);
        }
    }

    // The database and the store of a browser's other page follow in their own time.
    private async Task ExpectAllInPlaceAsync(WalkLedger ledger, CancellationToken cancellationToken)
    {
        List<string> faults;
        var waited = Stopwatch.StartNew();
        do
        {
            faults = await ledger.FaultsAsync(() => TabletShelf.SeenByAsync(_onlooker), cancellationToken);
        }
        while (faults.Count > 0 && waited.Elapsed < Patience);
        Assert.True(faults.Count == 0, string.Join('\n', faults));
    }
}
