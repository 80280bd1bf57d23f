using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.People;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Tests.Hosting;
using Xunit;

namespace ShopFluids.Web.Tests.Api;

/// <summary>Shutdowns over the API: planned for the shop or one machine, listed, ended.</summary>
public sealed class ShutdownApiTests
{
    private const string Address = "/api/v1/shutdowns";

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task Plan_Twice_PlansOnceAndListsIt(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Supervisor);
        var body = new { id = Some.Id(), sump = "s-07", firstDay = "2026-03-16", lastDay = "2026-03-29", reason = "Spindle repair" };

        var planned = await client.PostAsJsonAsync(Address, body, Stop);
        var again = await client.PostAsJsonAsync(Address, body, Stop);
        var other = await client.PostAsJsonAsync(Address, body with { lastDay = "2026-03-30" }, Stop);
        var beside = await client.PostAsJsonAsync(Address, body with { id = Some.Id(), firstDay = "2026-03-20" }, Stop);
        var whole = await client.PostAsJsonAsync(Address, new { id = Some.Id(), firstDay = "2026-12-21", lastDay = "2027-01-03", reason = "Works holiday" }, Stop);
        var list = await client.GetFromJsonAsync<JsonElement>(Address, Stop);

        Assert.Equal((HttpStatusCode.Created, HttpStatusCode.OK, HttpStatusCode.UnprocessableEntity, HttpStatusCode.Conflict, HttpStatusCode.Created), (planned.StatusCode, again.StatusCode, other.StatusCode, beside.StatusCode, whole.StatusCode));
        Assert.Equal(("otherContentForId", "shutdownsOverlap"), (await CodeAsync(other), await CodeAsync(beside)));
        Assert.True((await BodyAsync(planned)).GetProperty("tasks").GetInt32() > 0);
        Assert.Equal(0, (await BodyAsync(again)).GetProperty("tasks").GetInt32());
        Assert.Equal(
            [(null, "2026-12-21", "planned"), (Some.SumpTag, "2026-03-16", "planned")],
            list.GetProperty("items").EnumerateArray().Select(s => (s.GetProperty("sump").GetString(), s.GetProperty("firstDay").GetString(), s.GetProperty("state").GetString())));
        Assert.All(list.GetProperty("items").EnumerateArray(), s => Assert.NotEqual(0, s.GetProperty("work").GetArrayLength()));
        Assert.Contains(
            (Some.SumpTag, "before", "skim", "2026-03-13", "open"),
            (await BodyAsync(planned)).GetProperty("shutdown").GetProperty("work").EnumerateArray()
                .Select(t => (t.GetProperty("sump").GetString(), t.GetProperty("phase").GetString(), t.GetProperty("kind").GetString(), t.GetProperty("dueDay").GetString(), t.GetProperty("state").GetString())));
        Assert.Equal(2, await shop.CountAsync<Shutdown>());
        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    [Theory, EachDatabase]
    public async Task End_BeforeAndWhileItStands_WithdrawsOrEndsItOnce(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Supervisor);
        var (stands, comes) = (Some.Id(), Some.Id());
        await client.PostAsJsonAsync(Address, new { id = stands, sump = Some.SumpTag, firstDay = "2026-02-27", lastDay = "2026-03-13", reason = "Spindle repair" }, Stop);
        await client.PostAsJsonAsync(Address, new { id = comes, firstDay = "2026-12-21", lastDay = "2026-12-31", reason = "Works holiday" }, Stop);

        var ended = await client.PostAsync($"{Address}/{stands}/end", null, Stop);
        var withdrawn = await client.PostAsync($"{Address}/{comes}/end", null, Stop);
        var twice = await client.PostAsync($"{Address}/{comes}/end", null, Stop);
        var unknown = await client.PostAsync($"{Address}/{Some.Id()}/end", null, Stop);

        Assert.Equal(("over", "2026-03-01"), ((await BodyAsync(ended)).GetProperty("state").GetString(), (await BodyAsync(ended)).GetProperty("lastDay").GetString()));
        Assert.Equal("withdrawn", (await BodyAsync(withdrawn)).GetProperty("state").GetString());
        Assert.Equal((HttpStatusCode.Conflict, "shutdownOver"), (twice.StatusCode, await CodeAsync(twice)));
        Assert.Equal((HttpStatusCode.NotFound, "shutdownNotFound"), (unknown.StatusCode, await CodeAsync(unknown)));
        Assert.Empty((await client.GetFromJsonAsync<JsonElement>(Address, Stop)).GetProperty("items").EnumerateArray());
        Assert.Equal(2, (await client.GetFromJsonAsync<JsonElement>($"{Address}?state=ended", Stop)).GetProperty("items").GetArrayLength());
    }

    [Theory, EachDatabase]
    public async Task Plan_BadFieldsOrWithoutTheRight_IsRefusedAndStoresNothing(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Supervisor);
        var onTheFloor = await host.ClientOfAsync(Roles.Operator);
        var before = await shop.FootprintAsync();

        var typed = await client.PostAsJsonAsync(Address, new { firstDay = "16.03.2026", lastDay = "2026-02-30" }, Stop);
        var outside = await client.PostAsJsonAsync(Address, new { id = Some.Id(), firstDay = "2025-03-16", lastDay = "2026-03-29", reason = "Late" }, Stop);
        var unknown = await client.PostAsJsonAsync(Address, new { id = Some.Id(), sump = "S-99", firstDay = "2026-03-16", lastDay = "2026-03-29", reason = "Repair" }, Stop);
        var operators = await onTheFloor.PostAsJsonAsync(Address, new { id = Some.Id(), firstDay = "2026-03-16", lastDay = "2026-03-29", reason = "Repair" }, Stop);

        Assert.Equal(
            [("id", "missing"), ("firstDay", "notADay"), ("lastDay", "notADay"), ("reason", "missing")],
            (await BodyAsync(typed)).GetProperty("errors").EnumerateArray().Select(e => (e.GetProperty("field").GetString(), e.GetProperty("problem").GetString())));
        var range = Assert.Single((await BodyAsync(outside)).GetProperty("errors").EnumerateArray());
        Assert.Equal(("firstDay", "2026-01-31", "2027-03-03"), (range.GetProperty("field").GetString(), range.GetProperty("firstDay").GetString(), range.GetProperty("lastDay").GetString()));
        Assert.Equal((HttpStatusCode.NotFound, "sumpNotFound"), (unknown.StatusCode, await CodeAsync(unknown)));
        Assert.Equal(HttpStatusCode.Forbidden, operators.StatusCode);
        Assert.Equal(before, await shop.FootprintAsync());
        Assert.Equal(0, await shop.CountAsync<Shutdown>());
    }

    // As text, which may be read again.
    private static async Task<JsonElement> BodyAsync(HttpResponseMessage answer) => JsonDocument.Parse(await answer.Content.ReadAsStringAsync(Stop)).RootElement;

    private static async Task<string?> CodeAsync(HttpResponseMessage answer) => (await BodyAsync(answer)).GetProperty("code").GetString();
}
