using System.Net;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.People;
using ShopFluids.Testing.Databases;
using ShopFluids.Web.Account;
using ShopFluids.Web.Tests.Hosting;
using Xunit;

namespace ShopFluids.Web.Tests.Account;

public sealed class FirstRunTests
{
    [Theory, EachDatabase]
    public async Task EveryPage_NobodyHasAnAccount_LeadsToTheFirstRun(TestDatabase database)
    {
        await using var host = await TestHost.StartAsync(database);

        Assert.Equal("/account/first-run", (await host.Browser().OpenAsync("/")).Path);
        Assert.Equal("/account/first-run", (await host.Browser().OpenAsync("/board")).Path);
        Assert.Equal("/account/first-run", (await host.Browser().OpenAsync("/account/sign-in")).Path);
        Assert.Equal(HttpStatusCode.OK, (await host.Client().GetAsync("/health/ready", TestContext.Current.CancellationToken)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await host.Client().GetAsync("/css/tokens.css", TestContext.Current.CancellationToken)).StatusCode);
    }

    [Theory, EachDatabase]
    public async Task Post_RightCode_OpensTheShopAndSignsIn(TestDatabase database)
    {
        await using var host = await TestHost.StartAsync(database);
        var browser = host.Browser();

        var form = await browser.OpenAsync("/account/first-run");
        var page = await browser.PostAsync("/account/first-run", form, Fields(host.Get<FirstRun>().Code.ToLowerInvariant()));

        Assert.NotEqual("/account/first-run", page.Path);
        Assert.NotEqual("/account/sign-in", page.Path);
        await using var db = database.Open();
        var site = await db.Sites.SingleAsync(TestContext.Current.CancellationToken);
        Assert.Equal(("Hall 3", "Europe/Berlin", "de-DE", "EUR"), (site.Name, site.TimeZoneId, site.Culture, site.Currency));
        var account = Assert.Single(await host.Get<AccountsQuery>().AllAsync(TestContext.Current.CancellationToken));
        Assert.Equal([Roles.Caretaker, Roles.Supervisor], account.Roles);
        Assert.Equal("/account/sign-in", (await host.Browser().OpenAsync("/account/first-run")).Path);
    }

    [Theory, EachDatabase]
    public async Task Post_WrongCode_KeepsWhatWasTypedAndMakesNobody(TestDatabase database)
    {
        await using var host = await TestHost.StartAsync(database);
        var browser = host.Browser();

        var form = await browser.OpenAsync("/account/first-run");
        var page = await browser.PostAsync("/account/first-run", form, Fields("AAAA-AAAA"));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains("code-fault", page.Text, StringComparison.Ordinal);
        Assert.Contains("value=\"Hall 3\"", page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain(TestHost.Password, page.Text, StringComparison.Ordinal);
        Assert.Empty(await host.Get<AccountsQuery>().AllAsync(TestContext.Current.CancellationToken));
    }

    [Theory, EachDatabase]
    public async Task Post_SeveralFieldsBad_NamesEachAtItsField(TestDatabase database)
    {
        await using var host = await TestHost.StartAsync(database);
        var browser = host.Browser();
        var form = await browser.OpenAsync("/account/first-run");

        var page = await browser.PostAsync(
            "/account/first-run",
            form,
            ("code", host.Get<FirstRun>().Code), ("siteName", ""), ("timeZone", "Mars/Olympus"), ("culture", "de-DE"), ("units", "Metric"), ("displayName", "Alex"), ("signInName", "a b"), ("password", "short"));

        Assert.All(["siteName-fault", "timeZone-fault", "signInName-fault", "password-fault"], fault => Assert.Contains(fault, page.Text, StringComparison.Ordinal));
        Assert.Empty(await host.Get<AccountsQuery>().AllAsync(TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Accepts_TooManyTries_MakesANewCode()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var host = await TestHost.StartAsync(database);
        var firstRun = host.Get<FirstRun>();
        var code = firstRun.Code;

        var isNewCode = Enumerable.Range(0, 20).Select(_ => (firstRun.Accepts("AAAA-AAAA", out var isNew), isNew)).ToList()[^1].isNew;

        Assert.True(isNewCode);
        Assert.NotEqual(code, firstRun.Code);
        Assert.False(firstRun.Accepts(code, out _));
    }

    private static (string Name, string Value)[] Fields(string code) =>
    [
        ("code", code),
        ("siteName", "Hall 3"),
        ("timeZone", "Europe/Berlin"),
        ("culture", "de-DE"),
        ("units", "Metric"),
        ("displayName", "Alex"),
        ("signInName", "alex"),
        ("password", TestHost.Password),
    ];
}
