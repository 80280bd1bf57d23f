using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using ShopFluids.Core.People;
using ShopFluids.Core.Slides;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Tests.Hosting;
using Xunit;

namespace ShopFluids.Web.Tests.Api;

/// <summary>Dip slides over the API.</summary>
public sealed class SlideApiTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task StartAndRead_EachTwice_StoresEachOnceAndListsIt(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);
        var dippedAt = host.Clock.GetUtcNow();
        var start = new { id = Some.Id(), sump = Some.SumpTag, incubation = "incubator", dippedAt };

        var started = await client.PostAsJsonAsync("/api/v1/slides", start, Stop);
        var again = await client.PostAsJsonAsync("/api/v1/slides", start, Stop);
        var open = await client.GetFromJsonAsync<JsonElement>("/api/v1/slides", Stop);

        Assert.Equal((HttpStatusCode.Created, HttpStatusCode.OK), (started.StatusCode, again.StatusCode));
        var row = Assert.Single(open.GetProperty("items").EnumerateArray());
        Assert.Equal((Some.SumpTag, "bacteria", "incubator", "open"), (row.GetProperty("sump").GetString(), row.GetProperty("parameter").GetString(), row.GetProperty("incubation").GetString(), row.GetProperty("state").GetString()));

        host.Clock.Advance(TimeSpan.FromHours(30));
        var read = new { reading = Some.Id(), readAt = host.Clock.GetUtcNow(), value = 5 };
        var first = await client.PostAsJsonAsync($"/api/v1/slides/{start.id}/read", read, Stop);
        var second = await client.PostAsJsonAsync($"/api/v1/slides/{start.id}/read", read, Stop);
        var ended = await client.GetFromJsonAsync<JsonElement>("/api/v1/slides?state=ended", Stop);

        Assert.Equal((HttpStatusCode.Created, HttpStatusCode.OK), (first.StatusCode, second.StatusCode));
        var answer = await first.Content.ReadFromJsonAsync<JsonElement>(Stop);
        Assert.Equal(("read", false, "warning"), (answer.GetProperty("state").GetString(), answer.GetProperty("late").GetBoolean(), answer.GetProperty("reading").GetProperty("verdict").GetString()));
        Assert.Equal(5, Assert.Single(ended.GetProperty("items").EnumerateArray()).GetProperty("value").GetDouble());
        Assert.Equal(1, await shop.CountAsync<Slide>());
    }

    [Theory, EachDatabase]
    public async Task Discard_ThenRead_IsRefusedByName(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);
        var id = Some.Id();
        await client.PostAsJsonAsync("/api/v1/slides", new { id, sump = Some.SumpTag, incubation = "room", dippedAt = host.Clock.GetUtcNow() }, Stop);

        var early = await client.PostAsJsonAsync($"/api/v1/slides/{id}/read", new { reading = Some.Id(), readAt = host.Clock.GetUtcNow(), value = 5 }, Stop);
        var gone = await client.PostAsJsonAsync($"/api/v1/slides/{id}/discard", new { reason = "Broken" }, Stop);
        var late = await client.PostAsJsonAsync($"/api/v1/slides/{id}/read", new { reading = Some.Id(), readAt = host.Clock.GetUtcNow(), value = 5 }, Stop);
        var unknown = await client.PostAsJsonAsync($"/api/v1/slides/{Some.Id()}/discard", new { reason = "Broken" }, Stop);

        Assert.Equal("slideTooEarly", await CodeAsync(early));
        Assert.Equal("discarded", (await gone.Content.ReadFromJsonAsync<JsonElement>(Stop)).GetProperty("state").GetString());
        Assert.Equal((HttpStatusCode.Conflict, "slideEnded"), (late.StatusCode, await CodeAsync(late)));
        Assert.Equal((HttpStatusCode.NotFound, "slideNotFound"), (unknown.StatusCode, await CodeAsync(unknown)));
    }

    [Theory, EachDatabase]
    public async Task Start_BadFieldsOrAnAuditor_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);

        var answer = await (await host.ClientOfAsync(Roles.Operator)).PostAsJsonAsync("/api/v1/slides", new { id = "no id", sump = Some.SumpTag, dippedAt = "yesterday" }, Stop);
        var auditor = await (await host.ClientOfAsync(Roles.Auditor)).PostAsJsonAsync("/api/v1/slides", new { id = Some.Id(), sump = Some.SumpTag, incubation = "room", dippedAt = host.Clock.GetUtcNow() }, Stop);

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        var fields = (await answer.Content.ReadFromJsonAsync<JsonElement>(Stop)).GetProperty("errors").EnumerateArray().Select(e => e.GetProperty("field").GetString());
        Assert.Equal(["id", "incubation", "dippedAt"], fields);
        Assert.Equal(HttpStatusCode.Forbidden, auditor.StatusCode);
        Assert.Equal(0, await shop.CountAsync<Slide>());
    }

    private static async Task<string?> CodeAsync(HttpResponseMessage answer) => (await answer.Content.ReadFromJsonAsync<JsonElement>(Stop)).GetProperty("code").GetString();
}
