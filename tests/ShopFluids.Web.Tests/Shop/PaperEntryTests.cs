using System.Net;
using System.Text.RegularExpressions;
using ShopFluids.Core.Readings;
using ShopFluids.Rules;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Web.Tests.Shop;

public sealed class PaperEntryTests
{
    [Fact]
    public async Task Post_FromPaper_NextSumpOpensWithTheTimeOfThisOne()
    {
        await using var host = await ShopHost.OpenAsync(async shop =>
        {
            await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, "S-30", "M-30", walkOrder: 99));
            (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, "S-30"))).Done();
            await shop.StepAsync(Some.Step(TaskKind.Test));
            await shop.StepAsync(Some.Step(TaskKind.Test, "S-30"));
            shop.Clock.Advance(TimeSpan.FromHours(3));
        });

        var typed = new Dictionary<string, string> { ["paper"] = "1", ["value-concentration"] = "8.0", ["value-ph"] = "9.0", ["takenAt"] = "2026-03-02T09:30" };
        var posted = await host.PostAsync("/enter/S-07", typed, from: "/enter/S-07?paper=1");
        var saved = await host.GetAsync(posted.Location);
        var next = WebUtility.HtmlDecode(Regex.Match(saved.Html, "href=\"(?<next>/enter/S-30[^\"]*)\"", RegexOptions.None, TimeSpan.FromSeconds(1)).Groups["next"].Value);
        var page = await host.GetAsync(next);

        Assert.Equal(HttpStatusCode.SeeOther, posted.Status);
        Assert.Equal("/enter/S-30?paper=2026-03-02T09%3A30", next);
        Assert.Contains("value=\"2026-03-02T09:30\"", page.Html, StringComparison.Ordinal);
        Assert.Equal(1, await host.Shop.CountAsync<Reading>());
    }

    // What was written this morning must not count as read this evening.
    [Fact]
    public async Task Post_FromPaperWithoutATime_AsksForIt()
    {
        await using var host = await ShopHost.OpenAsync();

        var typed = new Dictionary<string, string> { ["paper"] = "1", ["value-concentration"] = "8.0", ["value-ph"] = "9.0", ["takenAt"] = "" };
        var page = await host.PostAsync("/enter/S-07", typed, from: "/enter/S-07?paper=1");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains("value=\"8.0\"", page.Html, StringComparison.Ordinal);
        Assert.Equal(0, await host.Shop.CountAsync<Reading>());
    }

    [Fact]
    public async Task Get_PaperThatIsNoTime_OpensWithoutOne()
    {
        await using var host = await ShopHost.OpenAsync();

        var page = await host.GetAsync("/enter/S-07?paper=%22%3E%3Cscript%3E");

        Assert.Equal(HttpStatusCode.OK, page.Status);
        Assert.DoesNotContain("\"><script>", page.Html, StringComparison.Ordinal);
        Assert.Contains("type=\"datetime-local\" name=\"takenAt\" value=\"\"", page.Html, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/sheets/round.pdf")]
    [InlineData("/sheets/round.pdf?all=1&paper=letter")]
    public async Task Get_RoundSheet_IsAPdf(string address)
    {
        await using var host = await ShopHost.OpenAsync(shop => shop.StepAsync(Some.Step(TaskKind.Test)));

        var page = await host.GetAsync(address);

        Assert.Equal(HttpStatusCode.OK, page.Status);
        Assert.StartsWith("%PDF", page.Html, StringComparison.Ordinal);
    }
}
