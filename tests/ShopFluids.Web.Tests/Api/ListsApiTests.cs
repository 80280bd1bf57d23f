using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using ShopFluids.Core.People;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Tests.Hosting;
using Xunit;

namespace ShopFluids.Web.Tests.Api;

public sealed class ListsApiTests
{
    [Theory, EachDatabase]
    public async Task Sumps_OneOutOfRange_ShowsItsStanding(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 4.1m));
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Auditor);

        var list = await client.GetFromJsonAsync<JsonElement>("/api/v1/sumps", TestContext.Current.CancellationToken);
        var one = await client.GetFromJsonAsync<JsonElement>("/api/v1/sumps/s-07", TestContext.Current.CancellationToken);

        var row = Assert.Single(list.GetProperty("items").EnumerateArray().ToList());
        Assert.Equal(("S-07", "action", "low"), (row.GetProperty("tag").GetString(), row.GetProperty("state").GetString(), row.GetProperty("direction").GetString()));
        Assert.Equal(JsonValueKind.Null, list.GetProperty("next").ValueKind);
        Assert.Equal(4.1m, one.GetProperty("latest").EnumerateArray().Single(l => l.GetProperty("parameter").GetString() == "concentration").GetProperty("value").GetDecimal());
        Assert.NotEmpty(one.GetProperty("flags").EnumerateArray());
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync("/api/v1/sumps/S-99", TestContext.Current.CancellationToken)).StatusCode);
    }

    [Theory, EachDatabase]
    public async Task Readings_SmallPages_GiveEachReadingOnce(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var ids = new List<Guid>();
        for (var i = 0; i < 5; i++)
        {
            // Two of one moment: the cursor must not lose or repeat either.
            ids.Add((await shop.StoreAsync(Some.Reading(takenAt: Some.Start.AddHours(-(i / 2))))).ReadingId);
        }

        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Auditor);
        var seen = new List<Guid>();
        string? next = null;
        do
        {
            var page = await client.GetFromJsonAsync<JsonElement>($"/api/v1/sumps/S-07/readings?limit=2{(next is null ? "" : $"&cursor={next}")}", TestContext.Current.CancellationToken);
            seen.AddRange(page.GetProperty("items").EnumerateArray().Select(r => r.GetProperty("id").GetGuid()));
            next = page.GetProperty("next").GetString();
        }
        while (next is not null);

        Assert.Equal(5, seen.Count);
        Assert.Equal(ids.Order(), seen.Order());
    }

    [Theory, EachDatabase]
    public async Task Readings_FromAndTo_TakeTheSpanOnly(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(takenAt: Some.Start.AddDays(-3)));
        var inside = await shop.StoreAsync(Some.Reading(takenAt: Some.Start.AddDays(-2)));
        await shop.StoreAsync(Some.Reading());
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Auditor);

        var page = await client.GetFromJsonAsync<JsonElement>("/api/v1/sumps/S-07/readings?from=2026-02-28&to=2026-03-01T00:00:00Z", TestContext.Current.CancellationToken);

        var reading = Assert.Single(page.GetProperty("items").EnumerateArray().ToList());
        Assert.Equal(inside.ReadingId, reading.GetProperty("id").GetGuid());
        Assert.Equal("8", reading.GetProperty("measurements").EnumerateArray().First(m => m.GetProperty("parameter").GetString() == "concentration").GetProperty("rawValue").GetRawText());
    }

    [Theory]
    [InlineData("2026-02-28", 1)]
    [InlineData("2026-02-27", 0)]
    [InlineData("2026-02-28T00:00:00Z", 0)]
    [InlineData("9999-12-31", 2)]
    public async Task Readings_ToADay_TakesThatDayWhole(string to, int count)
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(takenAt: Some.Start.AddDays(-2)));
        await shop.StoreAsync(Some.Reading());
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Auditor);

        var page = await client.GetFromJsonAsync<JsonElement>($"/api/v1/sumps/S-07/readings?to={to}", TestContext.Current.CancellationToken);

        Assert.Equal(count, page.GetProperty("items").GetArrayLength());
    }

    [Theory]
    [InlineData("/api/v1/sumps/S-07/readings?from=yesterday", "from")]
    [InlineData("/api/v1/sumps/S-07/readings?limit=0", "limit")]
    [InlineData("/api/v1/tasks?state=lost", "state")]
    [InlineData("/api/v1/tasks?cursor=!!", "cursor")]
    [InlineData("/api/v1/flags?state=lost", "state")]
    public async Task List_BadQuestion_NamesTheField(string path, string field)
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Auditor);

        var response = await client.GetAsync(path, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.BadRequest, response.StatusCode);
        var json = await response.Content.ReadFromJsonAsync<JsonElement>(TestContext.Current.CancellationToken);
        Assert.Equal(field, Assert.Single(json.GetProperty("errors").EnumerateArray().ToList()).GetProperty("field").GetString());
    }

    [Theory, EachDatabase]
    public async Task Task_TickedOff_LeavesTheOpenList(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.TrampOil, 20)));
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);
        var open = (await client.GetFromJsonAsync<JsonElement>("/api/v1/tasks?state=open", TestContext.Current.CancellationToken)).GetProperty("items").EnumerateArray().ToList();

        var id = open.Single(t => t.GetProperty("kind").GetString() == "skim").GetProperty("id").GetString();
        var done = await client.PostAsync($"/api/v1/tasks/{id}/done", null, TestContext.Current.CancellationToken);
        var again = await client.PostAsync($"/api/v1/tasks/{id}/done", null, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.OK, done.StatusCode);
        Assert.Equal(HttpStatusCode.OK, again.StatusCode);
        var after = (await client.GetFromJsonAsync<JsonElement>("/api/v1/tasks", TestContext.Current.CancellationToken)).GetProperty("items").EnumerateArray();
        Assert.DoesNotContain(after, t => t.GetProperty("id").GetString() == id);
        Assert.Contains((await client.GetFromJsonAsync<JsonElement>("/api/v1/tasks?state=done", TestContext.Current.CancellationToken)).GetProperty("items").EnumerateArray(), t => t.GetProperty("id").GetString() == id);
        Assert.Equal(HttpStatusCode.NotFound, (await client.PostAsync($"/api/v1/tasks/{Some.Id()}/done", null, TestContext.Current.CancellationToken)).StatusCode);
    }

    [Theory]
    [EachDatabase("{\"oilLitres\": \"1,5\", \"foundNote\": \"belt worn\"}", "oilLitres", 1.5, null, "1.5 L of oil taken off; belt worn")]
    [EachDatabase("{\"foundNote\": \"clean\"}", null, null, null, "clean")]
    public async Task Task_DoneWithWhatWasFound_IsListedWithIt(TestDatabase database, string body, string? what, double? value, string? state, string text)
    {
        var (host, id) = await WithTaskAsync(database, TaskKind.Skim);
        await using var _ = host;
        var client = await host.ClientOfAsync(Roles.Operator);

        var done = await client.PostAsync($"/api/v1/tasks/{id}/done", Json(body), TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.OK, done.StatusCode);
        var listed = (await client.GetFromJsonAsync<JsonElement>("/api/v1/tasks?state=done", TestContext.Current.CancellationToken)).GetProperty("items").EnumerateArray().Single().GetProperty("found");
        Assert.Equal((what, value, state, text), (listed.GetProperty("what").GetString(), listed.GetProperty("value").ValueKind == JsonValueKind.Null ? null : listed.GetProperty("value").GetDouble(), listed.GetProperty("state").GetString(), listed.GetProperty("text").GetString()));
    }

    [Theory]
    [EachDatabase(TaskKind.Skim, "{\"oilLitres\": 1000.5}", "oilLitres", "outOfRange")]
    [EachDatabase(TaskKind.Skim, "{\"oilLitres\": \"much\"}", "oilLitres", "notANumber")]
    [EachDatabase(TaskKind.Skim, "{\"oilLitres\": 1, \"sludgeMm\": 2}", "sludgeMm", "notAskedHere")]
    [EachDatabase(TaskKind.Skim, "{\"filterState\": \"half\"}", "filterState", "notAskedHere")]
    [EachDatabase(TaskKind.ChangeFilter, "{\"filterState\": \"torn\"}", "filterState", "unknownChoice")]
    public async Task Task_DoneWithAWrongFind_NamesTheFieldAndStaysOpen(TestDatabase database, TaskKind kind, string body, string field, string code)
    {
        var (host, id) = await WithTaskAsync(database, kind);
        await using var _ = host;
        var client = await host.ClientOfAsync(Roles.Operator);

        var response = await client.PostAsync($"/api/v1/tasks/{id}/done", Json(body), TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.BadRequest, response.StatusCode);
        var error = Assert.Single((await response.Content.ReadFromJsonAsync<JsonElement>(TestContext.Current.CancellationToken)).GetProperty("errors").EnumerateArray().ToList());
        Assert.Equal((field, code), (error.GetProperty("field").GetString(), error.GetProperty("problem").GetString()));
        Assert.Single((await client.GetFromJsonAsync<JsonElement>("/api/v1/tasks", TestContext.Current.CancellationToken)).GetProperty("items").EnumerateArray().ToList());
    }

    private static StringContent Json(string body) => new(body, System.Text.Encoding.UTF8, "application/json");

    private static async Task<(TestHost Host, Guid Id)> WithTaskAsync(TestDatabase database, TaskKind kind)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StepAsync(Some.Step(kind));
        var id = (await shop.ReadAsync(db => Task.FromResult(db.CareTasks.Single()))).Id;
        return (await TestHost.StartAsync(database), id);
    }

    [Theory, EachDatabase]
    public async Task Flags_OneRaised_IsSaidInWordsAndNumbers(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.StoreAsync(Some.Reading(brix: 4.1m));
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Auditor);

        var flags = (await client.GetFromJsonAsync<JsonElement>("/api/v1/flags?state=open", TestContext.Current.CancellationToken)).GetProperty("items").EnumerateArray().ToList();

        var flag = Assert.Single(flags);
        Assert.Equal("concentration", flag.GetProperty("parameter").GetString());
        Assert.Equal(4.1m, flag.GetProperty("numbers").GetProperty("value").GetDecimal());
        Assert.Contains("4.1", flag.GetProperty("text").GetString(), StringComparison.Ordinal);
        Assert.Empty((await client.GetFromJsonAsync<JsonElement>("/api/v1/flags?state=ended", TestContext.Current.CancellationToken)).GetProperty("items").EnumerateArray());
    }
}
