using System.Net;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Photos;
using ShopFluids.Core.Photos.Pictures;
using ShopFluids.Core.Readings;
using ShopFluids.Testing.Pictures;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Web.Tests.Shop;

/// <summary>A photo beside the values: with the form of a browser without script, or as the tablet's script sends it.</summary>
public sealed class PhotoEntryTests
{
    private const string Enter = "/enter/S-07";
    private const string Token = "__RequestVerificationToken";

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Get_Page_StatesTheKindsAndTheLimitAtTheField()
    {
        await using var host = await ShopHost.OpenAsync();

        var page = await host.GetAsync(Enter);

        Assert.Contains("enctype=\"multipart/form-data\"", page.Html, StringComparison.Ordinal);
        Assert.Contains("JPEG, PNG or WebP, up to 8 MB", page.Text, StringComparison.Ordinal);
        Assert.Contains("aria-describedby=\"photo-hint\"", page.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Post_WithPhoto_ShowsItOnThePageAfterSavingTurnedUpright()
    {
        await using var host = await ShopHost.OpenAsync();
        var typed = await TypedAsync(host);

        var answer = await host.SendFileAsync(Enter, typed, SamplePicture.TalkativeJpeg(6));

        Assert.Equal(HttpStatusCode.SeeOther, answer.Status);
        var page = await host.GetAsync(answer.Location);
        Assert.Contains($"src=\"/photos/{typed["id"]}/file\"", page.Html, StringComparison.Ordinal);
        Assert.Contains("class=\"turn6\"", page.Html, StringComparison.Ordinal);
        Assert.Contains("alt=\"Photo of S-07, 2 Mar 2026, 08:00, by J. Karrow\"", page.Html, StringComparison.Ordinal);
        var large = await host.GetAsync($"/photos/{typed["id"]}");
        Assert.Equal(HttpStatusCode.OK, large.Status);
        Assert.Contains("class=\"shot large\"", large.Html, StringComparison.Ordinal);
        Assert.Contains($"href=\"/enter/S-07/saved/{typed["id"]}\"", large.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_File_IsCleanAndMayDoNothing()
    {
        await using var host = await ShopHost.OpenAsync();
        var typed = await TypedAsync(host);
        await host.SendFileAsync(Enter, typed, SamplePicture.TalkativeJpeg(6));

        using var file = await host.FetchAsync($"/photos/{typed["id"]}/file");

        Assert.Equal(HttpStatusCode.OK, file.StatusCode);
        Assert.Equal("image/jpeg", file.Content.Headers.ContentType?.ToString());
        Assert.Equal("default-src 'none'; sandbox; frame-ancestors 'none'", Header(file, "Content-Security-Policy"));
        Assert.Equal("nosniff", Header(file, "X-Content-Type-Options"));
        Assert.Equal("same-origin", Header(file, "Cross-Origin-Resource-Policy"));
        Assert.Equal("no-cache, private", Header(file, "Cache-Control"));
        Assert.Equal(SamplePicture.Clean(SamplePicture.TalkativeJpeg(6)).Bytes.ToArray(), await file.Content.ReadAsByteArrayAsync(Stop));
        using var again = await host.FetchAsync($"/photos/{typed["id"]}/file", Header(file, "ETag"));
        Assert.Equal(HttpStatusCode.NotModified, again.StatusCode);
        Assert.Equal(Header(file, "ETag"), Header(again, "ETag"));
    }

    [Fact]
    public async Task Get_NobodySignedIn_IsShownTheDoor()
    {
        await using var host = await ShopHost.OpenAsync();
        var typed = await TypedAsync(host);
        await host.SendFileAsync(Enter, typed, SamplePicture.Jpeg);
        host.EndSignIn();

        foreach (var address in new[] { $"/photos/{typed["id"]}", $"/photos/{typed["id"]}/file" })
        {
            var answer = await host.GetAsync(address);
            Assert.Equal(HttpStatusCode.Redirect, answer.Status);
            Assert.Contains("/account/sign-in", answer.Location, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("")]
    [InlineData("/file")]
    public async Task Get_NoSuchPhoto_IsNotFound(string part)
    {
        await using var host = await ShopHost.OpenAsync();

        Assert.Equal(HttpStatusCode.NotFound, (await host.GetAsync($"/photos/{Some.Id()}{part}")).Status);
    }

    public static TheoryData<string, byte[], string> Refusals => new()
    {
        { "a web page with a picture's name", "<!doctype html><script>alert(1)</script>"u8.ToArray(), "this file is no JPEG, PNG or WebP picture" },
        { "half a picture", SamplePicture.Jpeg[..200], "the picture is incomplete or broken" },
        { "a large file", [.. SamplePicture.Jpeg, .. new byte[CleanPicture.MaximumBytes]], "the file has 8.1 MB. Up to 8 MB are accepted" },
    };

    [Theory]
    [MemberData(nameof(Refusals))]
    public async Task Post_RefusedFile_SaysSoAtTheFieldKeepsWhatWasTypedAndStoresNothing(string name, byte[] file, string sentence)
    {
        await using var host = await ShopHost.OpenAsync();
        var before = await host.Shop.FootprintAsync();

        var page = await host.SendFileAsync(Enter, await TypedAsync(host), file, name + ".jpg");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains(sentence, page.Text, StringComparison.Ordinal);
        Assert.Contains("id=\"photo-fault\"", page.Html, StringComparison.Ordinal);
        Assert.Contains("href=\"#photo\"", page.Html, StringComparison.Ordinal);
        Assert.Contains("value=\"8.1\"", page.Html, StringComparison.Ordinal);
        Assert.Equal(before, await host.Shop.FootprintAsync());
    }

    [Fact]
    public async Task Post_FormBeyondWhatIsRead_NamesTheLimitAndStoresNothing()
    {
        await using var host = await ShopHost.OpenAsync();
        var before = await host.Shop.FootprintAsync();

        var page = await host.SendFileAsync(Enter, await TypedAsync(host), new byte[29_000_000]);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains("Up to 8 MB are accepted", page.Text, StringComparison.Ordinal);
        Assert.Equal(before, await host.Shop.FootprintAsync());
    }

    [Fact]
    public async Task Post_RefusedForAnotherValue_SaysThatThePhotoIsToBeChosenAgain()
    {
        await using var host = await ShopHost.OpenAsync();
        var typed = await TypedAsync(host);
        typed["value-ph"] = "15";

        var page = await host.SendFileAsync(Enter, typed, SamplePicture.Jpeg);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains("Choose it again", page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("id=\"photo-fault\"", page.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Post_SignInEnded_CarriesTheValuesAndSaysThatThePhotoStayedBehind()
    {
        await using var host = await ShopHost.OpenAsync();
        var typed = await TypedAsync(host);
        host.EndSignIn();

        var door = await host.SendFileAsync(Enter, typed, SamplePicture.Jpeg);
        Assert.Equal(HttpStatusCode.Unauthorized, door.Status);
        var page = await host.SendAsync(Enter, new()
        {
            [Token] = door.Hidden(Token),
            ["name"] = ShopHost.SignInName,
            ["password"] = ShopHost.Password,
            ["id"] = door.Hidden("id"),
            ["value-concentration"] = door.Hidden("value-concentration"),
            ["photo-left"] = door.Hidden("photo-left"),
        });

        Assert.Contains("value=\"8.1\"", page.Html, StringComparison.Ordinal);
        Assert.Contains("Choose it again", page.Text, StringComparison.Ordinal);
        Assert.Equal(0, await host.Shop.CountAsync<Reading>());
    }

    [Fact]
    public async Task Send_FromTheTabletTwice_StoresOnce()
    {
        await using var host = await ShopHost.OpenAsync();
        var me = await host.Shop.ReadAsync(db => db.Users.Select(u => u.Id).SingleAsync(Stop));
        Dictionary<string, string> fields = new() { ["id"] = Some.Id().ToString(), ["value-concentration"] = "8.0", ["value-ph"] = "9.0" };

        var first = await host.SendFileAsync(Enter, fields, SamplePicture.Jpeg, savedBy: me);
        var second = await host.SendFileAsync(Enter, fields, SamplePicture.Jpeg, savedBy: me);

        Assert.Equal((HttpStatusCode.Created, HttpStatusCode.Created), (first.Status, second.Status));
        Assert.Equal((1, 1, 1), (await host.Shop.CountAsync<Reading>(), await host.Shop.CountAsync<Photo>(), await host.Shop.CountAsync<PhotoContent>()));
    }

    private static async Task<Dictionary<string, string>> TypedAsync(ShopHost host)
    {
        var page = await host.GetAsync(Enter);
        return new()
        {
            [Token] = page.Hidden(Token),
            ["id"] = page.Hidden("id"),
            ["value-concentration"] = "8.1",
            ["value-ph"] = "9.0",
            ["value-level"] = "300",
        };
    }

    private static string Header(HttpResponseMessage response, string name) =>
        response.Headers.TryGetValues(name, out var values) ? string.Join(", ", values) : "";
}
