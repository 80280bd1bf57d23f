using System.Net;
using System.Text.Json.Nodes;
using ShopFluids.EndToEnd.Tests.Server;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Api;

/// <summary>Posting readings over the network to a real server.</summary>
public sealed class ReadingPostTests
{
    private const int AtOnce = 50;

    [Theory, EachDatabase]
    public async Task Post_OnceAgainAndOtherwise_AnswersAsPromised(TestDatabase database)
    {
        await using var shop = await SmallShop.OpenAsync(database);
        var (id, now) = (Guid.CreateVersion7(), await shop.Api.NowAsync());
        var reading = ApiClient.Reading(id, Some.SumpTag, now, brix: 4.1m);

        var first = await shop.Api.PostReadingAsync(reading);
        Assert.Equal(HttpStatusCode.Created, first.Status);
        Assert.Equal("act", first.Json["verdict"]!.GetValue<string>()[..3]);

        var again = await shop.Api.PostReadingAsync(reading);
        Assert.Equal(HttpStatusCode.OK, again.Status);
        Assert.Equal(first.Body, again.Body);

        var other = await shop.Api.PostReadingAsync(ApiClient.Reading(id, Some.SumpTag, now, brix: 4.2m));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, other.Status);

        var unknown = await shop.Api.PostReadingAsync(ApiClient.Reading(Guid.CreateVersion7(), "S-99", now));
        Assert.Equal(HttpStatusCode.NotFound, unknown.Status);
        Assert.Single(await shop.Api.AllAsync($"/api/v1/sumps/{Some.SumpTag}/readings"));
    }

    [Theory]
    [EachDatabase("ph", 15, 0, 14)]
    [EachDatabase("level", 2000, 0, 400)]
    public async Task Post_ValueThatCannotBe_NamesTheFieldAndItsRange(TestDatabase database, string parameter, int value, int low, int high)
    {
        await using var shop = await SmallShop.OpenAsync(database);
        var reading = ApiClient.Reading(Guid.CreateVersion7(), Some.SumpTag, await shop.Api.NowAsync());
        reading["measurements"] = new JsonArray(new JsonObject { ["parameter"] = parameter, ["value"] = value });

        var answer = await shop.Api.PostReadingAsync(reading);

        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        var field = answer.Json["errors"]!.AsArray().Single()!;
        Assert.Contains(parameter, field["field"]!.GetValue<string>(), StringComparison.Ordinal);
        Assert.Equal((low, high), ((int)field["low"]!.GetValue<decimal>(), (int)field["high"]!.GetValue<decimal>()));
        Assert.Empty(await shop.Api.AllAsync($"/api/v1/sumps/{Some.SumpTag}/readings"));
    }

    [Theory, EachDatabase]
    public async Task Post_FiftyAtOnceWithOneId_StoresOneReadingAndOneSetOfTasks(TestDatabase database)
    {
        await using var shop = await SmallShop.OpenAsync(database);
        var reading = ApiClient.Reading(Guid.CreateVersion7(), Some.SumpTag, await shop.Api.NowAsync(), brix: 4.1m);

        var answers = await Task.WhenAll(Enumerable.Range(0, AtOnce).Select(_ => shop.Api.PostReadingAsync(reading)));

        Assert.Single(answers, a => a.Status == HttpStatusCode.Created);
        Assert.Equal(AtOnce - 1, answers.Count(a => a.Status == HttpStatusCode.OK));
        Assert.Single(answers.Select(a => a.Body).Distinct());
        Assert.Single(await shop.Api.AllAsync($"/api/v1/sumps/{Some.SumpTag}/readings"));

        var promised = answers[0].Json["tasksMade"]!.AsArray().Select(t => t!["id"]!.GetValue<string>()).Order().ToList();
        Assert.NotEmpty(promised);
        var open = (await shop.Api.AllAsync("/api/v1/tasks?state=open")).Select(t => t.GetProperty("id").GetString()).Order();
        Assert.Equal(promised, open);
        Assert.Equal(0, (await shop.VerifyAsync()).ExitCode);
    }
}
