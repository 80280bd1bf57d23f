using System.Net;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.People;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Web.Tests.Shop;

/// <summary>A reading that is sent after the sign-in ended is neither lost nor stored for nobody.</summary>
public sealed class EntrySignInTests
{
    // A tablet for several people: whoever is in by now must not get another's reading under the own name.
    [Fact]
    public async Task Send_WaitedForAnotherPerson_IsNotStoredUnderThisOne()
    {
        await using var host = await ShopHost.OpenAsync();
        var me = await host.Shop.ReadAsync(db => db.Users.Select(u => u.Id).SingleAsync());
        Dictionary<string, string> Fields() => new() { ["id"] = Some.Id().ToString(), ["value-concentration"] = "8.0", ["value-ph"] = "9.0" };

        var another = await host.SendWaitingAsync("/enter/S-07", Fields(), Some.Id());
        var own = await host.SendWaitingAsync("/enter/S-07", Fields(), me);

        Assert.Equal((HttpStatusCode.Unauthorized, HttpStatusCode.Created), (another.Status, own.Status));
        Assert.Equal(me, await host.Shop.ReadAsync(db => db.Readings.Select(r => r.PersonId).SingleAsync()));
    }

    private const string Enter = "/enter/S-07";
    private const string Token = "__RequestVerificationToken";

    [Fact]
    public async Task Post_SignInEnded_CarriesWhatWasTypedThroughTheSignInAndStoresOnce()
    {
        await using var host = await ShopHost.OpenAsync();
        var before = await host.Shop.FootprintAsync();
        var id = Guid.Empty;

        var offered = await SendSignedOutAsync(host, fields => id = Guid.Parse(fields["id"]));
        Assert.Equal(HttpStatusCode.Unauthorized, offered.Status);
        Assert.Contains("nothing is stored yet", offered.Text, StringComparison.Ordinal);
        Assert.Equal("8.9", offered.Hidden("value-concentration"));

        var wrong = await SignInAsync(host, offered, "not the password");
        Assert.Equal(HttpStatusCode.Unauthorized, wrong.Status);
        Assert.Contains("do not go together", wrong.Text, StringComparison.Ordinal);
        Assert.Equal("under the chip tray", wrong.Hidden("note"));

        var form = await SignInAsync(host, wrong, ShopHost.Password);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, form.Status);
        Assert.Contains("What was typed is still here", form.Text, StringComparison.Ordinal);
        Assert.Contains("value=\"8.9\"", form.Html, StringComparison.Ordinal);
        Assert.Contains("under the chip tray", form.Text, StringComparison.Ordinal);
        Assert.DoesNotContain(ShopHost.Password, form.Html, StringComparison.Ordinal);
        Assert.Equal(before, await host.Shop.FootprintAsync());

        var saved = await host.SendAsync(Enter, Typed(form));
        Assert.Equal(HttpStatusCode.SeeOther, saved.Status);
        Assert.Equal($"/enter/S-07/saved/{id}", saved.Location);
        Assert.Equal(1, await host.Shop.CountAsync<Reading>());
    }

    [Fact]
    public async Task Post_SignedInAsOneWhoMayNotEnter_IsRefused()
    {
        await using var host = await ShopHost.OpenAsync();
        var before = await host.Shop.CountAsync<Reading>();
        var auditor = new MakeAccount(Some.Id(), "auditor", "A. Ditor", ShopHost.Password, [Roles.Auditor], "light");
        (await host.Shop.Get<MakeAccountHandler>().HandleAsync(auditor, Actor.Program, TestContext.Current.CancellationToken)).Done();

        var answer = await SignInAsync(host, await SendSignedOutAsync(host), ShopHost.Password, "auditor");

        Assert.Equal(HttpStatusCode.Redirect, answer.Status);
        Assert.Contains("/account/not-allowed", answer.Location, StringComparison.Ordinal);
        Assert.Equal(before, await host.Shop.CountAsync<Reading>());
    }

    [Fact]
    public async Task Post_FormOfAnotherSite_IsShownAfterTheSignInButNotStored()
    {
        await using var host = await ShopHost.OpenAsync();
        host.EndSignIn();

        var offered = await host.SendAsync(Enter, new() { ["value-concentration"] = "8.9", ["id"] = Some.Id().ToString() });
        var form = await SignInAsync(host, offered, ShopHost.Password);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, form.Status);
        Assert.Equal(0, await host.Shop.CountAsync<Reading>());
    }

    private static async Task<ShopHost.Page> SendSignedOutAsync(ShopHost host, Action<Dictionary<string, string>>? look = null)
    {
        var fields = Typed(await host.GetAsync(Enter));
        look?.Invoke(fields);
        host.EndSignIn();
        return await host.SendAsync(Enter, fields);
    }

    private static Task<ShopHost.Page> SignInAsync(ShopHost host, ShopHost.Page page, string password, string name = ShopHost.SignInName)
    {
        var fields = new Dictionary<string, string> { [Token] = page.Hidden(Token), ["name"] = name, ["password"] = password };
        foreach (var field in new[] { "id", "value-concentration", "note" }.Where(page.HasHidden))
        {
            fields[field] = page.Hidden(field);
        }

        return host.SendAsync(Enter, fields);
    }

    private static Dictionary<string, string> Typed(ShopHost.Page page) => new()
    {
        [Token] = page.Hidden(Token),
        ["id"] = page.Hidden("id"),
        ["value-concentration"] = "8.9",
        ["note"] = "under the chip tray",
    };
}
