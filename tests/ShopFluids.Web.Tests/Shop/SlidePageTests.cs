using System.Net;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.People;
using ShopFluids.Core.Slides;
using ShopFluids.Rules;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Web.Tests.Shop;

public sealed class SlidePageTests
{
    private const string Address = "/slides/S-07";

    // The whole way without script: started, asked for on the round at its hour, read, and the page after saving says what it means.
    [Fact]
    public async Task Post_StartedAndReadTheNextDay_LeadsToTheReadingOfTheDip()
    {
        await using var host = await ShopHost.OpenAsync();
        var dippedAt = host.Shop.Now;
        Assert.Contains("/slides/S-07", (await host.GetAsync("/enter/S-07")).Html, StringComparison.Ordinal);

        var started = await host.PostAsync(Address, new() { ["incubation"] = "Incubator" });
        var waiting = await host.GetAsync(Address);

        Assert.Equal((HttpStatusCode.SeeOther, Address), (started.Status, started.Location));
        Assert.Contains("To be read from", waiting.Text, StringComparison.Ordinal);
        Assert.Matches("<form [^>]*/read\"[^>]* hidden", waiting.Html);
        Assert.DoesNotContain("style=", waiting.Html, StringComparison.Ordinal);

        // A shift's sign-in lasts as long as somebody looks now and then.
        for (var shift = 0; shift < 3; shift++)
        {
            host.Shop.Clock.Advance(TimeSpan.FromHours(9));
            Assert.Equal(HttpStatusCode.OK, (await host.GetAsync("/round")).Status);
        }

        Assert.Contains("Slides to read", (await host.GetAsync("/round")).Text, StringComparison.Ordinal);
        var id = await host.Shop.ReadAsync(db => db.Slides.Select(s => s.Id).SingleAsync());
        var read = await host.PostAsync($"{Address}/{id}/read", new() { ["value"] = "5" }, from: Address);

        var reading = await host.Shop.ReadAsync(db => db.Readings.SingleAsync());
        Assert.Equal((HttpStatusCode.SeeOther, $"/enter/S-07/saved/{reading.Id}"), (read.Status, read.Location));
        Assert.Equal(dippedAt, reading.TakenAtUtc);
        Assert.DoesNotContain("Slides to read", (await host.GetAsync("/round")).Text, StringComparison.Ordinal);
        Assert.Contains("Ended", (await host.GetAsync(Address)).Text, StringComparison.Ordinal);
        Assert.Empty((await host.Shop.VerifyAsync()).Findings);
    }

    [Fact]
    public async Task Post_ReadLate_SaysThatItIsMarked()
    {
        await using var host = await ShopHost.OpenAsync(async shop =>
        {
            await StartAsync(shop);
            shop.Clock.Advance(TimeSpan.FromHours(50));
        });
        Assert.Contains("what is read now is marked", (await host.GetAsync(Address)).Text, StringComparison.Ordinal);
        var id = await host.Shop.ReadAsync(db => db.Slides.Select(s => s.Id).SingleAsync());

        await host.PostAsync($"{Address}/{id}/read", new() { ["value"] = "5" }, from: Address);

        Assert.Contains("read after its window", (await host.GetAsync(Address)).Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("read", "value", "", "missing")]
    [InlineData("read", "value", "5", "Nothing has grown yet")]
    [InlineData("discard", "reason", "", "missing")]
    public async Task Post_NotPossible_SaysWhyAndStoresNothing(string act, string field, string typed, string words)
    {
        await using var host = await ShopHost.OpenAsync(StartAsync);
        var id = await host.Shop.ReadAsync(db => db.Slides.Select(s => s.Id).SingleAsync());

        var page = await host.PostAsync($"{Address}/{id}/{act}", new() { [field] = typed }, from: Address);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains(words, page.Text, StringComparison.Ordinal);
        Assert.Equal(1, await host.Shop.ReadAsync(db => db.Slides.CountAsync(s => s.EndedAtUtc == null)));
    }

    // Dipped and read out of reach of the server: each counts from when it was said, and sending it again changes nothing.
    [Fact]
    public async Task Post_ByTheTabletsScriptAfterItWaited_CountsFromWhenItWasSaid()
    {
        await using var host = await ShopHost.OpenAsync();
        var person = await host.Shop.ReadAsync(db => db.Users.Where(p => p.UserName == ShopHost.SignInName).Select(p => p.Id).SingleAsync());
        var start = new Dictionary<string, string> { ["id"] = "01957a00-0000-7000-8000-000000000001", ["incubation"] = "Incubator", ["savedAt"] = "0", ["sentAt"] = "3600000" };
        var dippedAt = host.Shop.Now.AddHours(-1);

        var ofAnother = await host.SendWaitingAsync(Address, start, Some.Id());
        var started = await host.SendWaitingAsync(Address, start, person);
        host.Shop.Clock.Advance(TimeSpan.FromMinutes(5));
        var startedAgain = await host.SendWaitingAsync(Address, start, person);

        Assert.Equal((HttpStatusCode.Unauthorized, HttpStatusCode.Created, HttpStatusCode.Created), (ofAnother.Status, started.Status, startedAgain.Status));
        var slide = await host.Shop.ReadAsync(db => db.Slides.SingleAsync());
        Assert.Equal(dippedAt, slide.DippedAtUtc);

        // Read one minute inside its window, sent ten hours after it has closed.
        var readAt = slide.ReadUntilUtc.AddMinutes(-1);
        while (host.Shop.Now < slide.ReadUntilUtc.AddHours(10))
        {
            host.Shop.Clock.Advance(TimeSpan.FromHours(5));
            Assert.Equal(HttpStatusCode.OK, (await host.GetAsync("/round")).Status);
        }

        var waited = (long)(host.Shop.Now - readAt).TotalMilliseconds;
        var read = new Dictionary<string, string> { ["id"] = "01957a00-0000-7000-8000-000000000002", ["value"] = "5", ["savedAt"] = "1", ["sentAt"] = FormattableString.Invariant($"{waited + 1}") };
        var stored = await host.SendWaitingAsync($"{Address}/{slide.Id}/read", read, person);
        var storedAgain = await host.SendWaitingAsync($"{Address}/{slide.Id}/read", read, person);
        var startedLate = await host.SendWaitingAsync(Address, start, person);

        Assert.Equal((HttpStatusCode.Created, HttpStatusCode.Created, HttpStatusCode.Created), (stored.Status, storedAgain.Status, startedLate.Status));
        slide = await host.Shop.ReadAsync(db => db.Slides.SingleAsync());
        Assert.Equal((readAt, false, 1), (slide.EndedAtUtc, slide.IsReadLate, await host.Shop.CountAsync<ShopFluids.Core.Readings.Reading>()));
    }

    [Fact]
    public async Task Post_StartRefused_KeepsWhatWasTyped()
    {
        await using var host = await ShopHost.OpenAsync();

        var page = await host.PostAsync(Address, new() { ["incubation"] = "Room", ["dippedAt"] = "2036-03-02T09:30" });

        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains("value=\"2036-03-02T09:30\"", page.Html, StringComparison.Ordinal);
        Assert.Matches("<option value=\"Room\" selected", page.Html);
        Assert.Equal(0, await host.Shop.CountAsync<Slide>());
    }

    [Fact]
    public async Task Post_Discarded_StandsAmongThoseThatEnded()
    {
        await using var host = await ShopHost.OpenAsync(StartAsync);
        var id = await host.Shop.ReadAsync(db => db.Slides.Select(s => s.Id).SingleAsync());

        var answer = await host.PostAsync($"{Address}/{id}/discard", new() { ["reason"] = "Fell on the floor" }, from: Address);

        Assert.Equal(HttpStatusCode.SeeOther, answer.Status);
        Assert.Contains("Fell on the floor", (await host.GetAsync(Address)).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_ByAnAuditor_ShowsNoForm()
    {
        await using var host = await ShopHost.OpenAsync(StartAsync, Roles.Auditor);

        var page = await host.GetAsync(Address);

        Assert.Equal(HttpStatusCode.OK, page.Status);
        Assert.DoesNotContain("<form id=\"start\"", page.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("/discard", page.Html, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await host.GetAsync("/slides/S-99")).Status);
    }

    private static async Task StartAsync(ShopFixture shop) =>
        (await shop.Get<StartSlideHandler>().HandleAsync(new(Some.Id(), Some.SumpTag, ParameterCodes.Bacteria, SlideIncubation.Incubator, shop.Now), Some.Operator, TestContext.Current.CancellationToken)).Done();
}
