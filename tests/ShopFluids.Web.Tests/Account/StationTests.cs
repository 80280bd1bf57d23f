using System.Net;
using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.People;
using ShopFluids.Core.People.Pins;
using ShopFluids.Core.People.Stations;
using ShopFluids.Core.Record;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Tests.Hosting;
using Xunit;

namespace ShopFluids.Web.Tests.Account;

/// <summary>A shared tablet without script: enrolled, people let in by PIN, locked, revoked.</summary>
public sealed class StationTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task Pin_RightOne_LeadsToTheRoundAndRecordsTheStation(TestDatabase database)
    {
        await using var desk = await StationDesk.OpenAsync(database);
        var person = await desk.PersonAsync("alex");
        var tablet = await desk.TabletAsync(await desk.OfferAsync());

        var round = await StationDesk.LetInAsync(tablet, person);
        Assert.Equal("/round", round.Path);
        var entry = await tablet.OpenAsync("/enter/S-07");
        var saved = await tablet.PostAsync("/enter/S-07", entry, ("id", $"{Some.Id():D}"), ("value-ph", "9.0"));

        Assert.Contains("/saved/", saved.Path, StringComparison.Ordinal);
        await using var db = database.Open();
        var act = await db.RecordEntries.SingleAsync(e => e.Code == ActCodes.ReadingStored, Stop);
        Assert.Equal((person, "South"), (act.ActorId, act.StationName));
        Assert.Contains("data-theme=\"dark\"", saved.Text, StringComparison.Ordinal);
    }

    [Theory, EachDatabase]
    public async Task Pin_WrongOne_IsSaidAndAfterAFewOneWaits(TestDatabase database)
    {
        await using var desk = await StationDesk.OpenAsync(database);
        var person = await desk.PersonAsync("alex");
        var tablet = await desk.TabletAsync(await desk.OfferAsync());

        var wrong = await StationDesk.LetInAsync(tablet, person, "975310");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, wrong.Status);
        Assert.Contains("This is not the PIN", wrong.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("975310", wrong.Text, StringComparison.Ordinal);
        for (var i = 0; i < 3; i++)
        {
            wrong = await StationDesk.LetInAsync(tablet, person, "975310");
        }

        Assert.Contains("The next try counts in 30 seconds", wrong.Text, StringComparison.Ordinal);
        Assert.Contains("was not looked at", (await StationDesk.LetInAsync(tablet, person)).Text, StringComparison.Ordinal);
        desk.Host.Clock.Advance(TimeSpan.FromSeconds(30));
        Assert.Equal("/round", (await StationDesk.LetInAsync(tablet, person)).Path);
    }

    [Theory, EachDatabase]
    public async Task Pin_AwayFromAStation_IsNoWayIn(TestDatabase database)
    {
        await using var desk = await StationDesk.OpenAsync(database);
        var person = await desk.PersonAsync("alex");
        var elsewhere = desk.Host.Browser();

        var signIn = await elsewhere.OpenAsync("/account/sign-in");
        var answer = await elsewhere.PostAsync(StationDesk.Door, signIn, ("stationPerson", $"{person:D}"), ("stationPin", StationDesk.Pin));

        Assert.StartsWith("/account/sign-in", answer.Path, StringComparison.Ordinal);
        Assert.StartsWith("/account/sign-in", (await elsewhere.OpenAsync("/round")).Path, StringComparison.Ordinal);
    }

    [Theory, EachDatabase]
    public async Task Station_RevokedWhileInUse_IsShutAtTheNextRequest(TestDatabase database)
    {
        await using var desk = await StationDesk.OpenAsync(database);
        var person = await desk.PersonAsync("alex");
        var offered = await desk.OfferAsync();
        var tablet = await desk.TabletAsync(offered);
        await StationDesk.LetInAsync(tablet, person);
        var entry = await tablet.OpenAsync("/enter/S-07");

        (await desk.Host.Get<SetUpStationsHandler>().HandleAsync(new RevokeStation(offered.Id), Some.Supervisor, Stop)).Done();
        var answer = await tablet.PostAsync("/enter/S-07", entry, ("id", $"{Some.Id():D}"), ("value-ph", "9.0"));

        Assert.Equal(HttpStatusCode.Unauthorized, answer.Status);
        Assert.Contains("name=\"value-ph\" value=\"9.0\"", answer.Text, StringComparison.Ordinal);
        Assert.Contains("name=\"password\"", answer.Text, StringComparison.Ordinal);
        Assert.Contains("no station any more", (await tablet.OpenAsync("/round")).Text, StringComparison.Ordinal);
        await using var db = database.Open();
        Assert.False(await db.Readings.AnyAsync(Stop));
    }

    [Theory, EachDatabase]
    public async Task Session_Idle_AsksForThePinAndKeepsWhatWasTyped(TestDatabase database)
    {
        await using var desk = await StationDesk.OpenAsync(database);
        var (person, other) = (await desk.PersonAsync("alex"), await desk.PersonAsync("sam"));
        var tablet = await desk.TabletAsync(await desk.OfferAsync());
        await StationDesk.LetInAsync(tablet, person);
        var entry = await tablet.OpenAsync("/enter/S-07");
        desk.Host.Clock.Advance(TimeSpan.FromMinutes(4));
        Assert.Equal("/round", (await tablet.OpenAsync("/round")).Path);
        desk.Host.Clock.Advance(TimeSpan.FromMinutes(4));
        Assert.Equal("/round", (await tablet.OpenAsync("/round")).Path);
        desk.Host.Clock.Advance(TimeSpan.FromMinutes(6));

        var id = Some.Id();
        var asked = await tablet.PostAsync("/enter/S-07", entry, ("id", $"{id:D}"), ("value-ph", "9.0"), ("note", "under the tray"));
        Assert.Equal(HttpStatusCode.Unauthorized, asked.Status);
        Assert.Contains("name=\"note\" value=\"under the tray\"", asked.Text, StringComparison.Ordinal);

        // What one typed is asked of that one, whoever else claims it.
        var wrong = await tablet.PostAsync("/enter/S-07", asked, ("id", $"{id:D}"), ("value-ph", "9.0"), ("note", "under the tray"), ("stationPerson", $"{other:D}"), ("stationPin", "975310"));
        Assert.Contains("This is not the PIN", wrong.Text, StringComparison.Ordinal);
        var back = await tablet.PostAsync("/enter/S-07", wrong, ("id", $"{id:D}"), ("value-ph", "9.0"), ("note", "under the tray"), ("stationPerson", $"{other:D}"), ("stationPin", StationDesk.Pin));
        Assert.Contains("under the tray", back.Text, StringComparison.Ordinal);
        Assert.Contains($"data-person=\"{person:D}\"", back.Text, StringComparison.Ordinal);
        var saved = await tablet.PostAsync("/enter/S-07", back, ("id", $"{id:D}"), ("value-ph", "9.0"), ("note", "under the tray"));
        Assert.EndsWith($"/saved/{id:D}", saved.Path, StringComparison.Ordinal);
    }

    [Theory, EachDatabase]
    public async Task Session_LockedOrTakenOver_DoesNotComeBackWithItsCookie(TestDatabase database)
    {
        await using var desk = await StationDesk.OpenAsync(database);
        var person = await desk.PersonAsync("alex");
        var tablet = await desk.TabletAsync(await desk.OfferAsync());
        await StationDesk.LetInAsync(tablet, person);
        var cookies = tablet.Cookies;

        var tiles = await tablet.PostAsync($"{StationDesk.Door}/lock", ("returnUrl", "/enter/S-07"));
        Assert.Equal($"{StationDesk.Door}?returnUrl=%2Fenter%2FS-07", tiles.Path);
        Assert.Contains("returnUrl=%2Fenter%2FS-07&amp;stationPerson=", tiles.Text, StringComparison.Ordinal);
        var client = desk.Host.Client();
        client.DefaultRequestHeaders.Add("Cookie", cookies);
        Assert.Equal(HttpStatusCode.Redirect, (await client.GetAsync(new Uri("/round", UriKind.Relative), Stop)).StatusCode);
        Assert.StartsWith(StationDesk.Door, (await tablet.OpenAsync("/round")).Path, StringComparison.Ordinal);
        Assert.Equal("/enter/S-07", (await StationDesk.LetInAsync(tablet, person, returnUrl: "/enter/S-07")).Path);
    }

    [Theory, EachDatabase]
    public async Task Session_WithoutTheStationsCookieOrWithANewPin_IsNoSignIn(TestDatabase database)
    {
        await using var desk = await StationDesk.OpenAsync(database);
        var person = await desk.PersonAsync("alex");
        var tablet = await desk.TabletAsync(await desk.OfferAsync());
        await StationDesk.LetInAsync(tablet, person);
        var client = desk.Host.Client();
        client.DefaultRequestHeaders.Add("Cookie", string.Join("; ", tablet.Cookies.Split("; ").Where(c => !c.StartsWith("shopfluids-station=", StringComparison.Ordinal))));

        Assert.Equal(HttpStatusCode.Redirect, (await client.GetAsync(new Uri("/round", UriKind.Relative), Stop)).StatusCode);
        Assert.Equal("/round", (await tablet.OpenAsync("/round")).Path);
        (await desk.Host.Get<SetPinHandler>().HandleAsync(new SetPin(person, "518273"), Some.Supervisor, Stop)).Done();
        Assert.StartsWith(StationDesk.Door, (await tablet.OpenAsync("/round")).Path, StringComparison.Ordinal);
    }

    [Theory, EachDatabase]
    public async Task Contact_OfATablet_IsTakenWithoutAPersonAndKeepsNobodyIn(TestDatabase database)
    {
        await using var desk = await StationDesk.OpenAsync(database);
        var person = await desk.PersonAsync("alex");
        var tablet = await desk.TabletAsync(await desk.OfferAsync());
        var now = new DateTimeOffset(Some.Start.AddMinutes(2)).ToUnixTimeMilliseconds();

        Assert.Equal(HttpStatusCode.NoContent, (await tablet.SendAsync(Report(now))).StatusCode);
        var row = Assert.Single(await desk.Host.Get<StationsQuery>().AllAsync(Stop));
        Assert.Equal((3, Some.Start.AddMinutes(-10), TimeSpan.FromMinutes(2)), (row.Unsent, row.OldestUnsentAtUtc, row.ClockAhead));
        Assert.Equal(HttpStatusCode.Unauthorized, (await desk.Host.Browser().SendAsync(Report(now))).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await tablet.SendAsync(Report(now, isOurs: false))).StatusCode);
        Assert.Equal(HttpStatusCode.BadRequest, (await tablet.SendAsync(Report(long.MaxValue))).StatusCode);

        await StationDesk.LetInAsync(tablet, person);
        for (var i = 0; i < 3; i++)
        {
            desk.Host.Clock.Advance(TimeSpan.FromMinutes(2));
            await tablet.SendAsync(Report(now));
        }

        Assert.StartsWith(StationDesk.Door, (await tablet.OpenAsync("/round")).Path, StringComparison.Ordinal);
        await StationDesk.LetInAsync(tablet, person);
        for (var i = 0; i < 3; i++)
        {
            desk.Host.Clock.Advance(TimeSpan.FromMinutes(2));
            await tablet.SendAsync(Report(now, isActive: true));
        }

        Assert.Equal("/round", (await tablet.OpenAsync("/round")).Path);
    }

    [Theory, EachDatabase]
    public async Task Pin_SetInTheAccount_IsRefusedWhenEasyAndWorksAtAStation(TestDatabase database)
    {
        await using var desk = await StationDesk.OpenAsync(database);
        var person = await desk.Host.AccountAsync("alex", Roles.Operator);
        var desktop = desk.Host.Browser();
        await desktop.SignInAsync("alex");

        var refused = await desktop.PostAsync("/account/pin", await desktop.OpenAsync("/account"), ("pin", "123456"), ("pinPassword", TestHost.Password));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
        Assert.Contains("among the first that anybody would try", refused.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("123456", refused.Text.Replace("such as 123456", "", StringComparison.Ordinal), StringComparison.Ordinal);
        var stranger = await desktop.PostAsync("/account/pin", refused, ("pin", "649205"), ("pinPassword", "a guess at it"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, stranger.Status);
        var done = await desktop.PostAsync("/account/pin", stranger, ("pin", "649205"), ("pinPassword", TestHost.Password));
        Assert.Equal("/account?saved=1", done.Path);

        var tablet = await desk.TabletAsync(await desk.OfferAsync());
        Assert.Equal("/round", (await StationDesk.LetInAsync(tablet, person, "649205")).Path);
    }

    private static HttpRequestMessage Report(long nowMs, bool isOurs = true, bool isActive = false)
    {
        var request = new HttpRequestMessage(HttpMethod.Post, "/api/v1/stations/contact") { Content = new StringContent(JsonSerializer.Serialize(new { unsent = 3, oldestAgeMs = 600_000, nowMs }), Encoding.UTF8, "application/json") };
        if (isOurs)
        {
            request.Headers.Add("X-ShopFluids", "1");
        }

        if (isActive)
        {
            request.Headers.Add("X-ShopFluids-Active", "1");
        }

        return request;
    }
}
