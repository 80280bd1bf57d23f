using System.Net;
using System.Text.RegularExpressions;
using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Doses;
using ShopFluids.Core.People;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Shop;
using ShopFluids.Web.Shop.Entry;
using Xunit;

namespace ShopFluids.Web.Tests.Shop;

/// <summary>A page that is shown again as it was drawn must be the one that would have been drawn.</summary>
public sealed partial class KeptEntryPageTests
{
    private const string Enter = "/enter/S-07";
    private const string Token = "__RequestVerificationToken";

    private static readonly ShopLook Light = new("light", null, IsOperator: true, IsSupervisor: false, IsOnStation: false, BasePath: "");

    // One difference at a time: whatever a page may follow keeps it from those that look at it otherwise.
    [Fact]
    public async Task FindAsync_PageWasShown_IsThereForThatLookAlone()
    {
        await using var host = await ShopHost.OpenAsync();
        await host.GetAsync(Enter);

        Assert.NotNull(await FindAsync(host, Light));
        Assert.NotNull(await FindAsync(host, Light, "s-07"));
        Assert.Null(await FindAsync(host, Light, "S-99"));
        await Assert.AllAsync(
            new[]
            {
                Light with { Theme = "dark" },
                Light with { Units = UnitSystem.Metric },
                Light with { IsOperator = false },
                Light with { IsSupervisor = true },
                Light with { IsOnStation = true },
                Light with { BasePath = "/fluids" },
            },
            async other => Assert.Null(await FindAsync(host, other)));
    }

    // Whatever goes by, what is shown is what a server draws that keeps nothing yet.
    [Fact]
    public async Task Get_AfterActsAndHours_IsWhatAnotherServerDraws()
    {
        await using var host = await ShopHost.OpenAsync(shop => shop.StepAsync(Some.Step(TaskKind.Test)));
        var shop = host.Shop;
        Func<Task>[] acts =
        [
            () => shop.StoreAsync(Some.Reading(brix: 4.0m, takenAt: shop.Now)),
            () => shop.Get<NoteDoseHandler>().HandleAsync(Some.Dose() with { GivenAtUtc = shop.Now }, Some.Supervisor, isSupervisor: true, TestContext.Current.CancellationToken),
            () => shop.InstrumentAsync(Some.Refractometer()),
            () => Task.CompletedTask,
        ];
        foreach (var act in acts)
        {
            await act();
            foreach (var hours in new[] { 1, 3, 5, 9 })
            {
                shop.Clock.Advance(TimeSpan.FromHours(hours));
                await host.UseAnotherBrowserAsync();
                await host.GetAsync(Enter);

                Assert.Equal(WithoutPlaces(await host.DrawAnewAsync(Enter)), WithoutPlaces(await host.GetAsync(Enter)));
            }
        }
    }

    [Fact]
    public async Task Post_FromAPageThatWasDrawnForAnotherBrowser_IsStored()
    {
        await using var host = await ShopHost.OpenAsync();
        var first = await host.GetAsync(Enter);
        await host.UseAnotherBrowserAsync();
        var second = await host.GetAsync(Enter);

        var saved = await host.SendAsync(Enter, new() { [Token] = second.Hidden(Token), ["id"] = second.Hidden("id"), ["value-ph"] = "9.1" });

        Assert.NotEqual(first.Hidden(Token), second.Hidden(Token));
        Assert.Equal(HttpStatusCode.SeeOther, saved.Status);
    }

    [Fact]
    public async Task PageAsync_MorePagesThanAreKept_KeepsThoseThatAreReadyAndThoseAskedForLast()
    {
        await using var host = await ShopHost.OpenAsync();
        await host.GetAsync(Enter);
        var pages = host.Services.GetRequiredService<KeptEntryPages>();
        Assert.NotNull(await FindAsync(host, Light));
        await pages.PageAsync(Light with { Theme = "shop" }, "S-07", TestContext.Current.CancellationToken);

        for (var other = 0; other <= KeptEntryPages.MostPages; other++)
        {
            host.Shop.Clock.Advance(TimeSpan.FromMilliseconds(1));
            await pages.PageAsync(Light with { BasePath = $"/{other}" }, "S-07", TestContext.Current.CancellationToken);
        }

        Assert.NotNull(await FindAsync(host, Light));
        Assert.Null(await FindAsync(host, Light with { Theme = "shop" }));
        Assert.NotNull(await FindAsync(host, Light with { BasePath = $"/{KeptEntryPages.MostPages}" }));
    }

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
        await host.SignInAsync();

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
        await host.SignInAsync("pellow");

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

    private static Task<DrawnPage?> FindAsync(ShopHost host, ShopLook look, string tag = "S-07") =>
        host.Services.GetRequiredService<KeptEntryPages>().FindAsync(look, tag, TestContext.Current.CancellationToken);

    private static string WithoutPlaces(ShopHost.Page page) =>
        Moment().Replace(page.Html.Replace(page.Hidden(Token), "", StringComparison.Ordinal).Replace(page.Hidden("id"), "", StringComparison.Ordinal), "");

    private static long At(ShopHost.Page page) => long.Parse(Moment().Match(page.Html).Groups["at"].Value, System.Globalization.CultureInfo.InvariantCulture);

    [GeneratedRegex("data-at=\"(?<at>[0-9]+)\"", RegexOptions.None, 1000)]
    private static partial Regex Moment();
}
