using ShopFluids.Core.People;
using ShopFluids.Core.People.Pins;
using ShopFluids.Core.People.Stations;
using ShopFluids.Core.Record;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.People;

public sealed class TryPinTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task HandleAsync_RightPin_BeginsTheOneSession(TestDatabase database)
    {
        await using var desk = await PinDesk.OpenAsync(database);
        var enrolled = await desk.EnrolAsync("South");
        var station = await desk.HereAsync(enrolled.Secret);
        Assert.NotNull(station);
        var person = await desk.PersonAsync();
        var before = await desk.Shop.CountAsync<RecordEntry>();

        var first = (await desk.TryAsync(station, person, PinDesk.Pin)).Done();
        var second = (await desk.TryAsync(station, person, PinDesk.Pin)).Done();

        Assert.Equal((person, "Op 1"), (second.PersonId, second.DisplayName));
        Assert.NotEqual(first.SessionId, second.SessionId);
        Assert.Equal(second.SessionId, (await desk.HereAsync(enrolled.Secret))?.SessionId);
        Assert.Equal(before, await desk.Shop.CountAsync<RecordEntry>());
        await desk.Shop.Get<EnrolStationHandler>().HandleAsync(new LockStation(station.Id), Stop);
        Assert.Null((await desk.HereAsync(enrolled.Secret))?.SessionId);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_WhoMayNotOrHasNone_IsWrong(TestDatabase database)
    {
        await using var desk = await PinDesk.OpenAsync(database);
        var station = await desk.StationAsync("South");

        Assert.IsType<WrongPin>((await desk.TryAsync(station, await desk.PersonAsync(pin: null), PinDesk.Pin)).Refused());
        Assert.IsType<WrongPin>((await desk.TryAsync(station, await desk.PersonAsync(role: Roles.Auditor), PinDesk.Pin)).Refused());
        Assert.IsType<WrongPin>((await desk.TryAsync(station, Some.Id(), PinDesk.Pin)).Refused());
        Assert.IsType<WrongPin>((await desk.TryAsync(station, await desk.PersonAsync(), "")).Refused());
    }

    // Who has a spell of wrong tries waits, longer each time; others at other tablets do not, and nobody waits for ever.
    [Theory, EachDatabase]
    public async Task HandleAsync_WrongTries_WaitGrowsForThisTabletAlone(TestDatabase database)
    {
        await using var desk = await PinDesk.OpenAsync(database);
        var (station, elsewhere) = (await desk.StationAsync("South"), await desk.StationAsync("North"));
        var (person, other) = (await desk.PersonAsync(), await desk.PersonAsync());
        var waits = new List<double>();
        for (var i = 0; i < 7; i++)
        {
            var wrong = Assert.IsType<WrongPin>((await desk.TryAsync(station, person, PinDesk.WrongPin)).Refused());
            waits.Add((wrong.NextAtUtc - desk.Shop.Now).TotalSeconds);
            desk.Shop.Clock.SetUtcNow(new DateTimeOffset(wrong.NextAtUtc));
        }

        Assert.Equal([0, 0, 0, 30, 60, 120, 240], waits);
        Assert.IsType<WrongPin>((await desk.TryAsync(station, person, PinDesk.WrongPin)).Refused());
        var soon = Assert.IsType<PinTooSoon>((await desk.TryAsync(station, person, PinDesk.Pin)).Refused());
        (await desk.TryAsync(station, other, PinDesk.Pin)).Done();
        (await desk.TryAsync(elsewhere, person, PinDesk.Pin)).Done();
        desk.Shop.Clock.SetUtcNow(new DateTimeOffset(soon.NextAtUtc));
        (await desk.TryAsync(station, person, PinDesk.Pin)).Done();
    }

    // After many wrong tries the tablet still serves whoever knows a PIN, one after the other.
    [Theory, EachDatabase]
    public async Task HandleAsync_RightPins_CostTheTabletNothing(TestDatabase database)
    {
        await using var desk = await PinDesk.OpenAsync(database);
        var station = await desk.StationAsync("South");
        var person = await desk.PersonAsync();
        for (var i = 0; i < BackoffPace.Device.FreeTries; i++)
        {
            await desk.TryAsync(station, Some.Id(), PinDesk.WrongPin);
        }

        desk.Shop.Clock.Advance(TimeSpan.FromSeconds(30));
        for (var i = 0; i < 20; i++)
        {
            (await desk.TryAsync(station, person, PinDesk.Pin)).Done();
        }
    }

    // PINs for eight people over eight hours, each at the first moment at which it is looked at.
    [Theory, EachDatabase]
    public async Task HandleAsync_AttackerForHours_GetsFewTriesLookedAt(TestDatabase database)
    {
        await using var desk = await PinDesk.OpenAsync(database);
        var (station, elsewhere) = (await desk.StationAsync("South"), await desk.StationAsync("North"));
        var known = await desk.PersonAsync();
        var people = new List<Guid>();
        for (var i = 0; i < 8; i++)
        {
            people.Add(await desk.PersonAsync());
        }

        var looked = new List<DateTime>();
        for (var sent = 0; desk.Shop.Now < Some.Start.AddHours(8); sent++)
        {
            // Washed with a PIN that the attacker knows, or sent again at once: no help.
            switch ((await desk.TryAsync(station, people[sent % people.Count], PinDesk.WrongPin)).Refused())
            {
                case WrongPin:
                    looked.Add(desk.Shop.Now);
                    break;
                case PinTooSoon soon:
                    (await desk.TryAsync(elsewhere, known, PinDesk.Pin)).Done();
                    desk.Shop.Clock.SetUtcNow(new DateTimeOffset(soon.NextAtUtc));
                    await desk.TryAsync(station, known, PinDesk.Pin);
                    break;
            }
        }

        Assert.InRange(looked.Count, 40, 8 * 15);
        Assert.All(looked, at => Assert.InRange(looked.Count(l => l >= at && l < at.AddHours(1)), 1, 30));
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_ManyAtOnce_AllCount(TestDatabase database)
    {
        await using var desk = await PinDesk.OpenAsync(database);
        await using var another = desk.Shop.Another();
        var station = await desk.StationAsync("South");
        var people = new List<Guid>();
        for (var i = 0; i < 6; i++)
        {
            people.Add(await desk.PersonAsync());
        }

        var answers = await Task.WhenAll(Enumerable.Range(0, 48).Select(i => Task.Run(() =>
            (i % 2 == 0 ? desk.Shop : another).Get<TryPinHandler>().HandleAsync(new TryPin(station, people[i % people.Count], PinDesk.WrongPin), Stop))));

        Assert.Equal(10, answers.Count(a => a.Refused() is WrongPin));
        Assert.Equal(38, answers.Count(a => a.Refused() is PinTooSoon));
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_AfterARestartOrAClockSetBack_StillWaitsButNotForEver(TestDatabase database)
    {
        await using var desk = await PinDesk.OpenAsync(database);
        var station = await desk.StationAsync("South");
        var person = await desk.PersonAsync();
        for (var i = 0; i < 4; i++)
        {
            await desk.TryAsync(station, person, PinDesk.WrongPin);
        }

        await using var restarted = desk.Shop.Another();
        var tryPin = new TryPin(station, person, PinDesk.Pin);
        Assert.IsType<PinTooSoon>((await restarted.Get<TryPinHandler>().HandleAsync(tryPin, Stop)).Refused());
        await using var setBack = desk.Shop.Another();
        setBack.Clock.AdjustTime(new DateTimeOffset(Some.Start.AddDays(-3)));
        Assert.IsType<PinTooSoon>((await setBack.Get<TryPinHandler>().HandleAsync(tryPin, Stop)).Refused());
        setBack.Clock.Advance(BackoffPace.PersonAtDevice.LongestWait);
        (await setBack.Get<TryPinHandler>().HandleAsync(tryPin, Stop)).Done();
    }
}
