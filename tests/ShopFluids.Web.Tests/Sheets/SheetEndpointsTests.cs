using System.Net;
using System.Text;
using ShopFluids.Core.People;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Tests.Hosting;
using Xunit;

namespace ShopFluids.Web.Tests.Sheets;

public sealed class SheetEndpointsTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory]
    [EachDatabase("/sheets/sumps/s-07/history.pdf", "history-S-07-")]
    [EachDatabase("/sheets/machines/M-07/history.pdf?from=2026-02-01&to=2026-03-02&paper=letter", "history-M-07-2026-02-01-2026-03-02.pdf")]
    public async Task Get_KnownSumpOrMachine_AnswersAPdfWithItsName(TestDatabase database, string address, string name)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading());
        await using var host = await TestHost.StartAsync(database);
        using var answer = await GetAsync(host, address);

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal("application/pdf", answer.Content.Headers.ContentType?.MediaType);
        Assert.Contains(name, answer.Content.Headers.ContentDisposition?.FileNameStar ?? "", StringComparison.Ordinal);
        Assert.StartsWith("%PDF-", Encoding.ASCII.GetString(await answer.Content.ReadAsByteArrayAsync(Token)), StringComparison.Ordinal);
    }

    [Theory]
    [EachDatabase("/sheets/labels.pdf")]
    [EachDatabase("/sheets/labels.pdf?sumps=s-07&size=62mm")]
    [EachDatabase("/sheets/labels.pdf?sumps=S-07,S-07&size=a6")]
    [EachDatabase("/sheets/labels.pdf?sumps=S-07&sumps=S-07&size=sheet&paper=letter")]
    public async Task Get_Labels_AnswersAPdf(TestDatabase database, string address)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        using var answer = await GetAsync(host, address);

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.StartsWith("labels-", answer.Content.Headers.ContentDisposition?.FileNameStar ?? "", StringComparison.Ordinal);
        Assert.StartsWith("%PDF-", Encoding.ASCII.GetString(await answer.Content.ReadAsByteArrayAsync(Token)), StringComparison.Ordinal);
    }

    [Theory]
    [EachDatabase("/sheets/lot.pdf?lot=l-1&from=2026-02-01&to=2026-03-02&paper=letter", "lot-L-1.pdf")]
    [EachDatabase("/sheets/overdue.pdf", "overdue-")]
    [EachDatabase("/sheets/overdue.pdf?by=person&paper=letter", "overdue-")]
    [EachDatabase("/sheets/waste.pdf?from=2026-02-01&to=2026-03-02", "waste-")]
    [EachDatabase("/sheets/dosing.pdf?from=2026-02-01&to=2026-03-02", "dosing-")]
    [EachDatabase("/sheets/month.pdf?month=2026-02", "month-2026-02.pdf")]
    [EachDatabase("/sheets/instruments.pdf?paper=letter", "instruments-")]
    public async Task Get_SheetAboutTheShop_AnswersAPdfWithItsName(TestDatabase database, string address, string name)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading());
        await using var host = await TestHost.StartAsync(database);
        using var answer = await GetAsync(host, address);

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal("application/pdf", answer.Content.Headers.ContentType?.MediaType);
        Assert.StartsWith(name, answer.Content.Headers.ContentDisposition?.FileNameStar ?? "", StringComparison.Ordinal);
        Assert.StartsWith("%PDF-", Encoding.ASCII.GetString(await answer.Content.ReadAsByteArrayAsync(Token)), StringComparison.Ordinal);
    }

    [Theory]
    [EachDatabase("/sheets/lot.pdf", HttpStatusCode.BadRequest, "Say which lot")]
    [EachDatabase("/sheets/lot.pdf?lot=L-99", HttpStatusCode.NotFound, "There is no lot L-99.")]
    [EachDatabase("/sheets/overdue.pdf?by=day", HttpStatusCode.BadRequest, "The order is area or person.")]
    [EachDatabase("/sheets/waste.pdf?from=2026-03-02&to=2026-03-01", HttpStatusCode.BadRequest, "The period ends before it begins.")]
    [EachDatabase("/sheets/dosing.pdf?from=2026-03-02&to=2026-03-01", HttpStatusCode.BadRequest, "The period ends before it begins.")]
    [EachDatabase("/sheets/month.pdf?month=March", HttpStatusCode.BadRequest, "A month is written like 2026-11.")]
    [EachDatabase("/sheets/month.pdf?month=2099-01", HttpStatusCode.BadRequest, "Jan 2099 has not begun yet.")]
    [EachDatabase("/sheets/instruments.pdf?paper=a5", HttpStatusCode.BadRequest, "The paper is a4 or letter.")]
    [EachDatabase("/sheets/files/01900000-0000-7000-8000-0000000000a1.pdf", HttpStatusCode.NotFound, "This file is no longer kept")]
    [EachDatabase("/sheets/labels.pdf?sumps=S-99", HttpStatusCode.NotFound, "There is no sump S-99")]
    [EachDatabase("/sheets/labels.pdf?size=a5", HttpStatusCode.BadRequest, "The size of a label is 62mm, a6 or sheet.")]
    [EachDatabase("/sheets/sumps/S-99/history.pdf", HttpStatusCode.NotFound, "There is no sump S-99")]
    [EachDatabase("/sheets/machines/M-99/history.pdf", HttpStatusCode.NotFound, "There is no machine M-99.")]
    [EachDatabase("/sheets/sumps/S-07/history.pdf?from=tomorrow", HttpStatusCode.BadRequest, "A day is written like 2026-11-25.")]
    [EachDatabase("/sheets/sumps/S-07/history.pdf?from=2026-03-02&to=2026-03-01", HttpStatusCode.BadRequest, "The period ends before it begins.")]
    [EachDatabase("/sheets/sumps/S-07/history.pdf?paper=a5", HttpStatusCode.BadRequest, "The paper is a4 or letter.")]
    public async Task Get_WrongAddress_SaysWhatIsWrong(TestDatabase database, string address, HttpStatusCode status, string sentence)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        using var answer = await GetAsync(host, address);

        Assert.Equal(status, answer.StatusCode);
        Assert.Contains(sentence, await answer.Content.ReadAsStringAsync(Token), StringComparison.Ordinal);
    }

    [Theory]
    [EachDatabase("/sheets/sumps/S-07/history.pdf")]
    [EachDatabase("/sheets/lot.pdf?lot=L-1")]
    [EachDatabase("/sheets/overdue.pdf")]
    [EachDatabase("/sheets/waste.pdf")]
    [EachDatabase("/sheets/dosing.pdf")]
    [EachDatabase("/sheets/month.pdf")]
    [EachDatabase("/sheets/instruments.pdf")]
    [EachDatabase("/sheets/files/01900000-0000-7000-8000-0000000000a1.pdf")]
    public async Task Get_NobodySignedIn_AnswersNoSheet(TestDatabase database, string address)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        await host.AccountAsync("somebody", Roles.Supervisor);
        using var client = host.Client();

        using var answer = await client.GetAsync(address, Token);

        Assert.NotEqual("application/pdf", answer.Content.Headers.ContentType?.MediaType);
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
    }

    private static async Task<HttpResponseMessage> GetAsync(TestHost host, string address)
    {
        await host.AccountAsync("auditor", Roles.Auditor);
        var browser = host.Browser();
        await browser.SignInAsync("auditor");
        return (await browser.OpenAsync(address)).Response;
    }
}
