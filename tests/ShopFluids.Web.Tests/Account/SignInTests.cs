using System.Net;
using System.Text.RegularExpressions;
using ShopFluids.Core.People;
using ShopFluids.Core.Record;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Tests.Hosting;
using Xunit;

namespace ShopFluids.Web.Tests.Account;

public sealed partial class SignInTests
{
    [Theory, EachDatabase]
    public async Task SignIn_RightPassword_OpensTheAccount(TestDatabase database)
    {
        await using var host = await TestHost.StartAsync(database);
        await host.AccountAsync("alex", Roles.Operator);
        var browser = host.Browser();

        await browser.SignInAsync("ALEX");

        var page = await browser.OpenAsync("/account");
        Assert.Equal("/account", page.Path);
        Assert.Contains("Somebody", page.Text, StringComparison.Ordinal);
    }

    [Theory, EachDatabase]
    public async Task SignIn_WrongPasswordOrNobody_ReadsTheSameAndKeepsTheName(TestDatabase database)
    {
        await using var host = await TestHost.StartAsync(database);
        await host.AccountAsync("alex", Roles.Operator);

        var wrong = await host.Browser().SignInAsync("alex", "not the password");
        var nobody = await host.Browser().SignInAsync("nobody", "not the password");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, wrong.Status);
        Assert.Contains("do not go together", wrong.Text, StringComparison.Ordinal);
        Assert.Contains("do not go together", nobody.Text, StringComparison.Ordinal);
        Assert.Contains("value=\"alex\"", wrong.Text, StringComparison.Ordinal);
    }

    [Theory, EachDatabase]
    public async Task SignIn_ManyWrongPasswords_LocksOutAndReadsAsForNobody(TestDatabase database)
    {
        await using var host = await TestHost.StartAsync(database);
        await host.AccountAsync("alex", Roles.Operator);
        for (var i = 0; i < 8; i++)
        {
            await host.Browser().SignInAsync("alex", "not the password");
        }

        var page = await host.Browser().SignInAsync("alex");
        var nobody = await host.Browser().SignInAsync("nobody");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains("shut for 5 minutes", page.Text, StringComparison.Ordinal);
        Assert.Equal(FaultOf(nobody), FaultOf(page));
    }

    [Theory, EachDatabase]
    public async Task Page_RolesTakenAway_AsksForSignInWithinAMinute(TestDatabase database)
    {
        await using var host = await TestHost.StartAsync(database);
        await host.AccountAsync("sam", Roles.Supervisor);
        await host.AccountAsync("alex", Roles.Supervisor);
        var browser = host.Browser();
        await browser.SignInAsync("alex");

        (await host.Get<ChangeAccountHandler>().HandleAsync(new ChangeRoles("alex", [Roles.Auditor]), Actor.Program, TestContext.Current.CancellationToken)).Done();
        host.Clock.Advance(TimeSpan.FromSeconds(61));

        Assert.StartsWith("/account/sign-in", (await browser.OpenAsync("/account")).Path, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("https://localhost/", true)]
    [InlineData("http://localhost/", false)]
    public async Task Page_OverAnEncryptedConnection_SendsNoCookieInTheClear(string address, bool isSecure)
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var host = await TestHost.StartAsync(database);
        await host.AccountAsync("alex", Roles.Operator);

        using var answer = await host.Client().GetAsync(new Uri(new Uri(address), "account/sign-in"), TestContext.Current.CancellationToken);

        var cookie = Assert.Single(answer.Headers.GetValues("Set-Cookie"));
        Assert.StartsWith("shopfluids-form=", cookie, StringComparison.Ordinal);
        Assert.Equal(isSecure, cookie.Contains("secure", StringComparison.OrdinalIgnoreCase));
    }

    [Fact]
    public async Task SignIn_FormOfAnotherSite_SignsNobodyIn()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var host = await TestHost.StartAsync(database);
        await host.AccountAsync("alex", Roles.Operator);

        var page = await host.Browser().PostAsync("/account/sign-in", ("name", "alex"), ("password", TestHost.Password));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains("open too long", page.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("https://elsewhere.example/")]
    [InlineData("//elsewhere.example/")]
    [InlineData("/\\elsewhere.example/")]
    public async Task SignIn_ReturnAddressElsewhere_StaysHere(string asked)
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var host = await TestHost.StartAsync(database);
        await host.AccountAsync("alex", Roles.Operator);
        var browser = host.Browser();

        var form = await browser.OpenAsync("/account/sign-in");
        var page = await browser.PostAsync("/account/sign-in", form, ("name", "alex"), ("password", TestHost.Password), ("returnUrl", asked));

        Assert.DoesNotContain("elsewhere", page.Path, StringComparison.Ordinal);
    }

    [Fact]
    public async Task SignIn_UnderABasePath_ReturnsToWhereItWasAsked()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var host = await TestHost.StartAsync(database, "/coolant");
        await host.AccountAsync("alex", Roles.Operator);
        var browser = host.Browser();

        var form = await browser.OpenAsync("/coolant/account");
        Assert.StartsWith("/coolant/account/sign-in?returnUrl=", form.Path, StringComparison.Ordinal);
        var page = await browser.PostAsync("/coolant/account/sign-in", form, ("name", "alex"), ("password", TestHost.Password), ("returnUrl", "/coolant/account"));

        Assert.Equal("/coolant/account", page.Path);
        Assert.Contains("href=\"/coolant/css/tokens.", page.Text, StringComparison.Ordinal);
    }

    [Theory, EachDatabase]
    public async Task Account_ChangePassword_OldOneNoLongerWorks(TestDatabase database)
    {
        await using var host = await TestHost.StartAsync(database);
        await host.AccountAsync("alex", Roles.Operator);
        var browser = host.Browser();
        await browser.SignInAsync("alex");

        var refused = await browser.PostAsync("/account/password", await browser.OpenAsync("/account"), ("currentPassword", "wrong"), ("password", "another long one"));
        var saved = await browser.PostAsync("/account/password", await browser.OpenAsync("/account"), ("currentPassword", TestHost.Password), ("password", "another long one"));

        Assert.Contains("currentPassword-fault", refused.Text, StringComparison.Ordinal);
        Assert.Equal("/account?saved=1", saved.Path);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await host.Browser().SignInAsync("alex")).Status);
        Assert.NotEqual(HttpStatusCode.UnprocessableEntity, (await host.Browser().SignInAsync("alex", "another long one")).Status);
    }

    [Theory, EachDatabase]
    public async Task Account_ChooseTheme_ShowsItAtOnce(TestDatabase database)
    {
        await using var host = await TestHost.StartAsync(database);
        await host.AccountAsync("alex", Roles.Operator);
        var browser = host.Browser();
        await browser.SignInAsync("alex");

        var page = await browser.PostAsync("/account/preferences", await browser.OpenAsync("/account"), ("units", "UsCustomary"), ("theme", "dark"));

        Assert.Equal("/account?saved=1", page.Path);
        Assert.Contains("data-theme=\"dark\"", page.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task SignOut_SignedIn_AsksForSignInAgain()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var host = await TestHost.StartAsync(database);
        await host.AccountAsync("alex", Roles.Operator);
        var browser = host.Browser();
        await browser.SignInAsync("alex");

        await browser.PostAsync("/account/sign-out", await browser.OpenAsync("/account"));

        Assert.StartsWith("/account/sign-in", (await browser.OpenAsync("/account")).Path, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Page_AnyAnswer_CarriesTheSecurityHeaders()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var host = await TestHost.StartAsync(database);
        await host.AccountAsync("alex", Roles.Operator);

        var page = await host.Browser().OpenAsync("/account/sign-in");

        var policy = Assert.Single(page.Response.Headers.GetValues("Content-Security-Policy"));
        Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
        Assert.Contains("frame-ancestors 'none'", policy, StringComparison.Ordinal);
        Assert.Equal("nosniff", Assert.Single(page.Response.Headers.GetValues("X-Content-Type-Options")));
        Assert.True(page.Response.Headers.CacheControl!.NoStore);
    }

    private static string FaultOf(TestPage page) => FaultPattern().Match(page.Text).Groups["fault"].Value;

    [GeneratedRegex("role=\"alert\">(?<fault>[^<]+)<", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex FaultPattern();
}
