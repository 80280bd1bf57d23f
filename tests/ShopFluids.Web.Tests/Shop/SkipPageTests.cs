using System.Net;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Rounds;
using ShopFluids.Rules;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Web.Tests.Shop;

public sealed class SkipPageTests
{
    private static Task<ShopHost> OpenAsync() => ShopHost.OpenAsync(shop => shop.StepAsync(Some.Step(TaskKind.Test)));

    [Fact]
    public async Task Post_MachineRunning_RoundShowsReasonAndLeadsOn()
    {
        await using var host = await OpenAsync();

        var posted = await host.PostAsync("/round/skip", new() { ["sump"] = "S-07", ["reason"] = "1", ["words"] = "Long part" }, from: "/round/skip?sump=S-07");
        var round = await host.GetAsync("/round");

        Assert.Equal((HttpStatusCode.SeeOther, "/round"), (posted.Status, posted.Location));
        Assert.Contains("of 1 sumps read, 1 skipped", round.Text, StringComparison.Ordinal);
        Assert.Contains("Nothing is left to read on this round", round.Text, StringComparison.Ordinal);
        Assert.Contains("Machine running, Long part", round.Text, StringComparison.Ordinal);
        Assert.Contains("/enter/S-07", round.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Post_AnotherReasonWithoutWords_ShowsTheFormAgainAndStoresNothing()
    {
        await using var host = await OpenAsync();

        var posted = await host.PostAsync("/round/skip", new() { ["sump"] = "S-07", ["reason"] = "3", ["words"] = "" }, from: "/round/skip?sump=S-07");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, posted.Status);
        Assert.Contains("In words", posted.Text, StringComparison.Ordinal);
        Assert.Contains("aria-invalid=\"true\"", posted.Html, StringComparison.Ordinal);
        Assert.Equal(0, await host.Shop.CountAsync<SkippedStop>());
    }

    [Fact]
    public async Task Post_WithoutTheFormsToken_StoresNothing()
    {
        await using var host = await OpenAsync();

        var posted = await host.SendAsync("/round/skip", new() { ["sump"] = "S-07", ["reason"] = "1" });

        Assert.Equal(HttpStatusCode.UnprocessableEntity, posted.Status);
        Assert.Equal(0, await host.Shop.CountAsync<SkippedStop>());
    }

    [Fact]
    public async Task Post_ByTheTabletsScript_SaysWhereToGoAndSentAgainStandsOnceAtTheTimeItWasSaid()
    {
        await using var host = await OpenAsync();
        var person = await host.Shop.ReadAsync(db => db.Users.Where(p => p.UserName == ShopHost.SignInName).Select(p => p.Id).SingleAsync());
        var fields = new Dictionary<string, string> { ["id"] = "01957a00-0000-7000-8000-000000000001", ["sump"] = "S-07", ["reason"] = "1", ["words"] = "", ["savedAt"] = "1000000", ["sentAt"] = "1600000" };

        var ofAnother = await host.SendWaitingAsync("/round/skip", fields, Some.Id());
        var sent = await host.SendWaitingAsync("/round/skip", fields, person);
        var again = await host.SendWaitingAsync("/round/skip", fields, person);
        var other = await host.SendWaitingAsync("/round/skip", new(fields) { ["reason"] = "2" }, person);

        Assert.Equal(HttpStatusCode.Unauthorized, ofAnother.Status);
        Assert.Equal((HttpStatusCode.Created, HttpStatusCode.Created, HttpStatusCode.UnprocessableEntity), (sent.Status, again.Status, other.Status));
        Assert.Equal("""{"location":"/round"}""", sent.Html);
        Assert.Equal(host.Shop.Now.AddMinutes(-10), (await host.Shop.ReadAsync(db => db.SkippedStops.SingleAsync())).SkippedAtUtc);
    }

    [Fact]
    public async Task Post_RefusedAfterItWaited_KeepsItsIdAndWhenItWasSaved()
    {
        await using var host = await OpenAsync();
        const string Id = "01957a00-0000-7000-8000-000000000001";

        var refused = await host.PostAsync("/round/skip", new() { ["id"] = Id, ["sump"] = "S-07", ["words"] = "", ["savedAt"] = "1000000", ["sentAt"] = "1600000" }, from: "/round/skip?sump=S-07");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
        Assert.Equal((Id, "1000000"), (refused.Hidden("id"), refused.Hidden("savedAt")));
        Assert.DoesNotContain("data-fresh", refused.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_Finish_ListsWhatIsLeftAndAsksOnce()
    {
        await using var host = await OpenAsync();

        var page = await host.GetAsync("/round/finish");
        var posted = await host.PostAsync("/round/skip", new() { ["sump"] = page.Hidden("sump"), ["finish"] = "1", ["reason"] = "2" }, from: "/round/finish");
        var kept = await host.Shop.ReadAsync(db => db.SkippedStops.SingleAsync());

        Assert.Contains("Concentration · pH", page.Text, StringComparison.Ordinal);
        Assert.Contains("Finish without them", page.Text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.SeeOther, posted.Status);
        Assert.Equal(SkipReason.CouldNotReach, kept.Reason);
    }

    [Fact]
    public async Task Get_SumpThatIsNotDue_LeadsBackToTheRound()
    {
        await using var host = await ShopHost.OpenAsync();

        var page = await host.GetAsync("/round/skip?sump=S-07");

        Assert.Equal((HttpStatusCode.Redirect, "/round"), (page.Status, page.Location));
        Assert.DoesNotContain("/round/skip", (await host.GetAsync("/enter/S-07")).Html, StringComparison.Ordinal);
    }
}
