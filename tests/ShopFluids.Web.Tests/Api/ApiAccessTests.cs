using System.Net;
using System.Net.Http.Headers;
using System.Text;
using ShopFluids.Core.People;
using ShopFluids.Core.Record;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Api.Access;
using ShopFluids.Web.Tests.Hosting;
using Xunit;

namespace ShopFluids.Web.Tests.Api;

public sealed class ApiAccessTests
{
    [Theory]
    [InlineData(null)]
    [InlineData("Bearer sf_nothing")]
    [InlineData("Basic YWxleDp4")]
    public async Task Get_NoWorkingToken_Answers401AsProblem(string? authorization)
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var host = await TestHost.StartAsync(database);
        var client = host.Client();
        client.DefaultRequestHeaders.Authorization = authorization is null ? null : AuthenticationHeaderValue.Parse(authorization);

        var response = await client.GetAsync("/api/v1/sumps", TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.Unauthorized, response.StatusCode);
        Assert.Equal("application/problem+json", response.Content.Headers.ContentType!.MediaType);
    }

    [Theory, EachDatabase]
    public async Task Get_TokenRevoked_IsRefusedWithinSeconds(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Auditor);
        Assert.Equal(HttpStatusCode.OK, (await client.GetAsync("/api/v1/sumps", TestContext.Current.CancellationToken)).StatusCode);

        (await host.Get<RevokeTokenHandler>().HandleAsync(new RevokeToken($"token-{Roles.Auditor}"), Actor.Program, TestContext.Current.CancellationToken)).Done();
        host.Clock.Advance(TokenCache.RememberedFor);

        Assert.Equal(HttpStatusCode.Unauthorized, (await client.GetAsync("/api/v1/sumps", TestContext.Current.CancellationToken)).StatusCode);
    }

    [Fact]
    public async Task Post_TokenOfAnAuditor_IsForbidden()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Auditor);

        var response = await client.PostAsync("/api/v1/readings", new StringContent("{}", Encoding.UTF8, "application/json"), TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.Forbidden, response.StatusCode);
        Assert.Equal("application/problem+json", response.Content.Headers.ContentType!.MediaType);
    }

    [Fact]
    public async Task Get_SignedInCookie_NeedsTheOwnHeader()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        await host.AccountAsync("alex", Roles.Operator);
        var browser = host.Browser();
        await browser.SignInAsync("alex");

        var without = await browser.SendAsync(new HttpRequestMessage(HttpMethod.Get, "/api/v1/sumps"));
        var with = new HttpRequestMessage(HttpMethod.Get, "/api/v1/sumps");
        with.Headers.Add("X-ShopFluids", "1");

        Assert.Equal(HttpStatusCode.Forbidden, without.StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await browser.SendAsync(with)).StatusCode);
    }

    [Fact]
    public async Task Get_Description_NamesTheAddresses()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Auditor);

        var text = await client.GetStringAsync("/api/v1/openapi.json", TestContext.Current.CancellationToken);

        Assert.Contains("/api/v1/readings", text, StringComparison.Ordinal);
        Assert.Contains("/api/v1/tasks/{id}/done", text, StringComparison.Ordinal);
        using var described = System.Text.Json.JsonDocument.Parse(text);
        Assert.All(described.RootElement.GetProperty("paths").EnumerateObject(), p => Assert.StartsWith("/api/v1/", p.Name, StringComparison.Ordinal));
        var reading = described.RootElement.GetProperty("components").GetProperty("schemas").GetProperty("ReadingRequest");
        Assert.Equal(["id", "measurements", "sump", "takenAt"], reading.GetProperty("required").EnumerateArray().Select(r => r.GetString() ?? "").Order(StringComparer.Ordinal));
    }
}
