using System.Net;
using ShopFluids.Core.People;
using ShopFluids.Testing.Databases;
using ShopFluids.Web.Tests.Hosting;
using Xunit;

namespace ShopFluids.Web.Tests.Account;

public sealed class SignInTests
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
    public async Task SignIn_ManyWrongPasswords_LocksOut(TestDatabase database)
    {
        await using var host = await TestHost.StartAsync(database);
        await host.AccountAsync("alex", Roles.Operator);
        for (var i = 0; i < 8; i++)
        {
            await host.Browser().SignInAsync("alex", "not the password");
        }

        var page = await host.Browser().SignInAsync("alex");

        Assert.Contains("Too many wrong passwords", page.Text, StringComparison.Ordinal);
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
}
