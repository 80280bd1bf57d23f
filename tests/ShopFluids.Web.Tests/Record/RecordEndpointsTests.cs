using ShopFluids.Core.People;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Tests.Hosting;
using Xunit;

namespace ShopFluids.Web.Tests.Record;

public sealed class RecordEndpointsTests
{
    private const string Header = "number,at,person,personId,station,stationId,act,subject,changes,previousHash,hash";

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task Get_Auditor_AnswersEveryEntryWithItsWholeFingerprint(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading());
        await using var host = await TestHost.StartAsync(database);

        using var answer = await GetAsync(host, "/record/entries.csv", Roles.Auditor);

        Assert.Equal("text/csv", answer.Content.Headers.ContentType?.MediaType);
        var lines = (await answer.Content.ReadAsStringAsync(Token)).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(Header, lines[0]);
        var report = await shop.VerifyAsync();
        Assert.Equal(report.Entries + 1, lines.Length);
        Assert.EndsWith(report.HeadHash, lines[^1], StringComparison.Ordinal);
    }

    [Theory, EachDatabase]
    public async Task Get_NamesThatLookLikeFormulas_AreMadeHarmless(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(), new(null, "=2+3,\"x\""));
        await using var host = await TestHost.StartAsync(database);

        using var answer = await GetAsync(host, "/record/entries.csv?what=reading.stored", Roles.Supervisor);

        Assert.Contains(",\"'=2+3,\"\"x\"\"\",", await answer.Content.ReadAsStringAsync(Token), StringComparison.Ordinal);
    }

    [Theory]
    [EachDatabase("/record")]
    [EachDatabase("/record/entries.csv")]
    public async Task Get_Operator_MayNot(TestDatabase database, string address)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);

        using var answer = await GetAsync(host, address, Roles.Operator);

        Assert.NotEqual("text/csv", answer.Content.Headers.ContentType?.MediaType);
        Assert.DoesNotContain(Header, await answer.Content.ReadAsStringAsync(Token), StringComparison.Ordinal);
        Assert.DoesNotContain("entries.csv", await answer.Content.ReadAsStringAsync(Token), StringComparison.Ordinal);
    }

    private static async Task<HttpResponseMessage> GetAsync(TestHost host, string address, string role)
    {
        await host.AccountAsync("reader", role);
        var browser = host.Browser();
        await browser.SignInAsync("reader");
        return (await browser.OpenAsync(address)).Response;
    }
}
