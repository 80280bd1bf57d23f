using System.Net;
using System.Text.RegularExpressions;
using ShopFluids.Core.People;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Web.Tests.Shop;

/// <summary>A page that is shown again as it was drawn must be the one that would have been drawn.</summary>
public sealed partial class KeptEntryPageTests
{
    private const string Enter = "/enter/S-07";
    private const string Token = "__RequestVerificationToken";

    [Fact]
    public async Task Get_NothingWasRecorded_IsTheSamePageWithItsOwnIdTokenAndMoment()
    {
        await using var host = await ShopHost.OpenAsync(shop => shop.StoreAsync(Some.Reading()));
        var first = await host.GetAsync(Enter);
        host.Shop.Clock.Advance(TimeSpan.FromMinutes(1));

        var second = await host.GetAsync(Enter);

        Assert.Equal(WithoutPlaces(first), WithoutPlaces(second));
        Assert.NotEqual(first.Hidden("id"), second.Hidden("id"));
        Assert.Equal(60_000, At(second) - At(first));
        Assert.Equal(first.ContentPolicy, second.ContentPolicy);
    }

    [Fact]
    public async Task Get_NothingWasRecorded_IsKeptByNoCacheOnTheWay()
    {
        await using var host = await ShopHost.OpenAsync();
        await host.GetAsync(Enter);

        using var second = await host.FetchAsync(Enter);

        Assert.True(second.Headers.CacheControl?.NoStore);
        Assert.Equal("text/html; charset=utf-8", second.Content.Headers.ContentType?.ToString());
    }

    [Fact]
    public async Task Post_FromAPageShownAgain_IsStoredUnderItsId()
    {
        await using var host = await ShopHost.OpenAsync();
        await host.GetAsync(Enter);
        var again = await host.GetAsync(Enter);

        var saved = await host.SendAsync(Enter, new() { [Token] = again.Hidden(Token), ["id"] = again.Hidden("id"), ["value-ph"] = "9.1" });

        Assert.Equal(HttpStatusCode.SeeOther, saved.Status);
        Assert.Equal($"/enter/S-07/saved/{again.Hidden("id")}", saved.Location);
        Assert.Contains("Last <b>9.1</b>, today", (await host.GetAsync(Enter)).Html, StringComparison.Ordinal);
    }

    // The shop day ends at six, the calendar's at midnight: what was last read tells its day by the calendar.
    [Theory]
    [InlineData(15, "today")]
    [InlineData(17, "yesterday")]
    [InlineData(41, "2 days ago")]
    public async Task Get_TimeGoesBy_TheWordsFollow(int hours, string ago)
    {
        await using var host = await ShopHost.OpenAsync(shop => shop.StoreAsync(Some.Reading(ph: 9.1m)));
        await host.GetAsync(Enter);
        host.Shop.Clock.Advance(TimeSpan.FromHours(hours));
        await host.PostAsync("/account/sign-in", new() { ["name"] = ShopHost.SignInName, ["password"] = ShopHost.Password });

        var page = await host.GetAsync(Enter);

        Assert.Contains($"Last <b>9.1</b>, {ago}", page.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_OtherChoicesOfThePerson_AreFollowedAtOnce()
    {
        await using var host = await ShopHost.OpenAsync(shop => shop.StoreAsync(Some.Reading()));
        var metric = await host.GetAsync(Enter);

        await host.PostAsync("/account/preferences", new() { ["units"] = "UsCustomary", ["theme"] = "dark" }, from: "/account");

        var page = await host.GetAsync(Enter);
        Assert.Contains("data-theme=\"light\"", metric.Html, StringComparison.Ordinal);
        Assert.Contains("data-theme=\"dark\"", page.Html, StringComparison.Ordinal);
        Assert.NotEqual(metric.Text, page.Text);
    }

    [Fact]
    public async Task Get_AnotherPerson_IsTheirPage()
    {
        await using var host = await ShopHost.OpenAsync();
        (await host.Shop.Get<MakeAccountHandler>().HandleAsync(new MakeAccount(Some.Id(), "pellow", "B. Pellow", ShopHost.Password, [Roles.Operator], "light"), Some.Supervisor, TestContext.Current.CancellationToken)).Done();
        var mine = await host.GetAsync(Enter);
        host.EndSignIn();
        await host.PostAsync("/account/sign-in", new() { ["name"] = "pellow", ["password"] = ShopHost.Password });

        var theirs = await host.GetAsync(Enter);

        Assert.Contains("data-name=\"J. Karrow\"", mine.Html, StringComparison.Ordinal);
        Assert.Contains("data-name=\"B. Pellow\"", theirs.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("Karrow", theirs.Html, StringComparison.Ordinal);
        var saved = await host.SendAsync(Enter, new() { [Token] = theirs.Hidden(Token), ["id"] = theirs.Hidden("id"), ["value-ph"] = "9.1" });
        Assert.Equal(HttpStatusCode.SeeOther, saved.Status);
    }

    [Fact]
    public async Task Get_SumpWasDrainedMeanwhile_SaysSo()
    {
        await using var host = await ShopHost.OpenAsync();
        await host.GetAsync(Enter);
        (await host.Shop.DrainAsync(host.Shop.Now)).Done();

        Assert.Equal(HttpStatusCode.Conflict, (await host.GetAsync(Enter)).Status);
    }

    [Fact]
    public async Task Get_FromPaper_IsNotThePageOfTheRound()
    {
        await using var host = await ShopHost.OpenAsync();
        await host.GetAsync(Enter);

        Assert.True((await host.GetAsync($"{Enter}?paper=1")).HasHidden("paper"));
        Assert.False((await host.GetAsync(Enter)).HasHidden("paper"));
    }

    private static string WithoutPlaces(ShopHost.Page page) =>
        Moment().Replace(page.Html.Replace(page.Hidden(Token), "", StringComparison.Ordinal).Replace(page.Hidden("id"), "", StringComparison.Ordinal), "");

    private static long At(ShopHost.Page page) => long.Parse(Moment().Match(page.Html).Groups["at"].Value, System.Globalization.CultureInfo.InvariantCulture);

    [GeneratedRegex("data-at=\"(?<at>[0-9]+)\"", RegexOptions.None, 1000)]
    private static partial Regex Moment();
}
