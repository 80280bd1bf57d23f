using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using ShopFluids.Core.People;
using ShopFluids.Core.Rounds;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Tests.Hosting;
using Xunit;

namespace ShopFluids.Web.Tests.Api;

public sealed class RoundApiTests
{
    [Theory, EachDatabase]
    public async Task Skips_SumpDue_StandsInTheRoundAsSkipped(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);

        var answer = await client.PostAsJsonAsync("/api/v1/round/skips", new { sumps = new[] { "S-07" }, reason = "machineRunning" }, TestContext.Current.CancellationToken);
        var round = await client.GetFromJsonAsync<JsonElement>("/api/v1/round", TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal(0, round.GetProperty("due").GetArrayLength());
        var stop = Assert.Single(round.GetProperty("skipped").EnumerateArray().ToList());
        Assert.Equal(("S-07", "machineRunning"), (stop.GetProperty("sump").GetString(), stop.GetProperty("skip").GetProperty("reason").GetString()));
        Assert.Equal(["concentration", "ph"], stop.GetProperty("measure").EnumerateArray().Select(m => m.GetString()));
    }

    [Fact]
    public async Task Skips_SentAgainWithItsId_ChangesNothing()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(TaskKind.Test));
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);

        var statuses = new List<HttpStatusCode>();
        foreach (var reason in new[] { "machineRunning", "machineRunning", "couldNotReach" })
        {
            var answer = await client.PostAsJsonAsync("/api/v1/round/skips", new { id = "01957a00-0000-7000-8000-000000000001", sumps = new[] { "S-07" }, reason }, TestContext.Current.CancellationToken);
            statuses.Add(answer.StatusCode);
        }

        Assert.Equal([HttpStatusCode.OK, HttpStatusCode.OK, HttpStatusCode.UnprocessableEntity], statuses);
        Assert.Equal(1, await shop.CountAsync<SkippedStop>());
    }

    [Theory]
    [InlineData("""{"sumps":["S-07"],"reason":"tired"}""", HttpStatusCode.BadRequest)]
    [InlineData("""{"sumps":["S-07"]}""", HttpStatusCode.BadRequest)]
    [InlineData("""{"sumps":"S-07","reason":"machineRunning"}""", HttpStatusCode.BadRequest)]
    [InlineData("""{"sumps":[],"reason":"machineRunning"}""", HttpStatusCode.BadRequest)]
    [InlineData("""{"sumps":[7],"reason":"machineRunning"}""", HttpStatusCode.BadRequest)]
    [InlineData("""{"sumps":["\ud800"],"reason":"machineRunning"}""", HttpStatusCode.BadRequest)]
    [InlineData("""{"sumps":["S-99"],"reason":"machineRunning"}""", HttpStatusCode.NotFound)]
    [InlineData("""{"sumps":["S-07"],"reason":"machineRunning"}""", HttpStatusCode.Conflict)]
    public async Task Skips_NotPossible_IsAProblemAndStoresNothing(string body, HttpStatusCode status)
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);

        using var content = new StringContent(body, System.Text.Encoding.UTF8, "application/json");
        var answer = await client.PostAsync("/api/v1/round/skips", content, TestContext.Current.CancellationToken);

        Assert.Equal(status, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        Assert.Equal(0, await shop.CountAsync<SkippedStop>());
    }

    [Fact]
    public async Task Skips_Auditor_MayNot()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Auditor);

        var answer = await client.PostAsJsonAsync("/api/v1/round/skips", new { sumps = new[] { "S-07" }, reason = "machineRunning" }, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
    }
}
