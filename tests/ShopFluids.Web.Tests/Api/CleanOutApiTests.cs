using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.People;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Tests.Hosting;
using Xunit;

namespace ShopFluids.Web.Tests.Api;

/// <summary>A clean-out over the API, from its plan to the first reading of the new charge.</summary>
public sealed class CleanOutApiTests
{
    private const string Address = "/api/v1/clean-outs";

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task Walk_EveryCallTwice_StoresEachOnceAndOpensTheNextCharge(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);
        var id = Some.Id();
        var ready = await client.GetFromJsonAsync<JsonElement>("/api/v1/sumps/s-07/clean-out", Stop);
        Assert.Equal((1, JsonValueKind.Null, "120109"), (ready.GetProperty("charge").GetInt32(), ready.GetProperty("cleanOut").ValueKind, ready.GetProperty("wasteCode").GetString()));
        Assert.Equal("L-1", Assert.Single(ready.GetProperty("lots").EnumerateArray()).GetProperty("number").GetString());

        var started = await client.PostAsJsonAsync(Address, Plan(id), Stop);
        var again = await client.PostAsJsonAsync(Address, Plan(id), Stop);
        var other = await client.PostAsJsonAsync(Address, Plan(id, rinses: 1), Stop);
        var second = await client.PostAsJsonAsync(Address, Plan(Some.Id()), Stop);

        Assert.Equal((HttpStatusCode.Created, HttpStatusCode.OK), (started.StatusCode, again.StatusCode));
        Assert.Equal($"{Address}/{id}", started.Headers.Location?.OriginalString);
        Assert.Equal((HttpStatusCode.UnprocessableEntity, "otherContentForId"), (other.StatusCode, await CodeAsync(other)));
        Assert.Equal((HttpStatusCode.Conflict, "cleanOutOpen"), (second.StatusCode, await CodeAsync(second)));
        var begun = await BodyAsync(started);
        Assert.Equal(("open", "safetySheets", 3.0), (begun.GetProperty("state").GetString(), begun.GetProperty("next").GetString(), begun.GetProperty("numbers").GetProperty("cleanerLitres").GetDouble()));

        foreach (var (step, body) in Steps())
        {
            host.Clock.Advance(TimeSpan.FromMinutes(10));
            var noted = await client.PutAsJsonAsync($"{Address}/{id}/steps/{step}", body, Stop);
            Assert.True(noted.StatusCode == HttpStatusCode.Created, $"{step}: {await noted.Content.ReadAsStringAsync(Stop)}");
            Assert.Equal(HttpStatusCode.OK, (await client.PutAsJsonAsync($"{Address}/{id}/steps/{step}", body, Stop)).StatusCode);
        }

        var stale = await client.PutAsJsonAsync($"{Address}/{id}/steps/inspect", new { seen = "Screen whole" }, Stop);
        var putRight = await client.PutAsJsonAsync($"{Address}/{id}/steps/inspect", new { seen = "Screen whole", round = 1 }, Stop);
        Assert.Equal((HttpStatusCode.Conflict, "stepChanged", HttpStatusCode.OK), (stale.StatusCode, await CodeAsync(stale), putRight.StatusCode));
        Assert.Equal("reading", (await BodyAsync(putRight)).GetProperty("next").GetString());

        host.Clock.Advance(TimeSpan.FromMinutes(10));
        var reading = new { id = Some.Id(), sump = Some.SumpTag, takenAt = host.Clock.GetUtcNow(), measurements = new object[] { new { parameter = "concentration", value = 8.0 }, new { parameter = "ph", value = 9.0 } } };
        var finished = await client.PostAsJsonAsync($"{Address}/{id}/finish", reading, Stop);
        var repeated = await client.PostAsJsonAsync($"{Address}/{id}/finish", reading, Stop);
        var changed = await client.PostAsJsonAsync($"{Address}/{id}/finish", reading with { takenAt = reading.takenAt.AddMinutes(-1) }, Stop);
        var later = await client.PutAsJsonAsync($"{Address}/{id}/steps/wipe", new { waste = new[] { new { code = "15 02 02*", litres = 1 } }, round = 1 }, Stop);

        Assert.Equal((HttpStatusCode.Created, HttpStatusCode.OK), (finished.StatusCode, repeated.StatusCode));
        Assert.Equal((HttpStatusCode.UnprocessableEntity, "otherContentForId"), (changed.StatusCode, await CodeAsync(changed)));
        Assert.Equal((HttpStatusCode.Conflict, "cleanOutOver"), (later.StatusCode, await CodeAsync(later)));
        Assert.Equal("inRange", (await BodyAsync(finished)).GetProperty("reading").GetProperty("verdict").GetString());
        Assert.Equal([1, 2], await shop.ReadAsync(db => db.Charges.OrderBy(c => c.Number).Select(c => c.Number).ToListAsync(Stop)));
        Assert.Equal(143, await shop.ReadAsync(db => db.Removals.Select(r => r.Litres).SingleAsync(Stop)));
        Assert.Empty((await shop.VerifyAsync()).Findings);

        var ended = await client.GetFromJsonAsync<JsonElement>($"{Address}?state=ended", Stop);
        var row = Assert.Single(ended.GetProperty("items").EnumerateArray());
        Assert.Equal(("finished", reading.id), (row.GetProperty("state").GetString(), row.GetProperty("reading").GetGuid()));
        var drain = row.GetProperty("steps").EnumerateArray().Single(s => s.GetProperty("step").GetString() == "drain").GetProperty("noted");
        Assert.Equal((35, "12 01 09*", 141), (drain.GetProperty("sludgeMm").GetInt32(), drain.GetProperty("waste")[0].GetProperty("code").GetString(), drain.GetProperty("waste")[0].GetProperty("litres").GetInt32()));
        Assert.Empty((await client.GetFromJsonAsync<JsonElement>(Address, Stop)).GetProperty("items").EnumerateArray());
    }

    [Theory, EachDatabase]
    public async Task Write_BadFields_NamesEachWithItsRangeAndStoresNothing(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);
        var id = Some.Id();
        var before = await shop.FootprintAsync();

        var missing = await client.PostAsJsonAsync(Address, new { id = "none", heelLitres = "much", rinses = 1.5 }, Stop);
        var outside = await client.PostAsJsonAsync(Address, Plan(id, content: 900), Stop);

        Assert.Equal(["circulationHours", "cleanerPercent", "contentLitres", "heelLitres", "id", "rinseLitres", "rinses", "sump"], (await FieldsAsync(missing)).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal));
        var range = Assert.Single((await BodyAsync(outside)).GetProperty("errors").EnumerateArray());
        Assert.Equal(("contentLitres", 1, 200, "L"), (range.GetProperty("field").GetString(), range.GetProperty("low").GetInt32(), range.GetProperty("high").GetInt32(), range.GetProperty("unit").GetString()));
        Assert.Equal(before, await shop.FootprintAsync());

        await client.PostAsJsonAsync(Address, Plan(id), Stop);
        await ToAsync(client, id, "lockOut");
        before = await shop.FootprintAsync();
        Assert.Equal(["confirmed", "confirmed"], await FieldsAsync(await client.PutAsJsonAsync($"{Address}/{id}/steps/lockOut", new { confirmed = new[] { "lockedOut" } }, Stop)));
        Assert.Equal(["confirmed"], await FieldsAsync(await client.PutAsJsonAsync($"{Address}/{id}/steps/lockOut", new { confirmed = new[] { "lockedOut", "luck" } }, Stop)));
        Assert.Equal(before, await shop.FootprintAsync());

        await ToAsync(client, id, "drain", from: "lockOut");
        before = await shop.FootprintAsync();
        Assert.Equal(["waste[1].litres", "sludgeMm"], await FieldsAsync(await client.PutAsJsonAsync($"{Address}/{id}/steps/drain", new { waste = new[] { new { code = "12 01 09*", litres = 100m }, new { code = "13 05 06*", litres = -1m } }, sludgeMm = 3000 }, Stop)));
        Assert.Equal(["waste"], await FieldsAsync(await client.PutAsJsonAsync($"{Address}/{id}/steps/drain", new { waste = Enumerable.Repeat(new { code = "12 01 09*", litres = 1 }, 3) }, Stop)));
        Assert.Equal(["waste"], await FieldsAsync(await client.PutAsJsonAsync($"{Address}/{id}/steps/drain", new { waste = "much" }, Stop)));
        Assert.Equal(["waste[0].litres"], await FieldsAsync(await client.PutAsJsonAsync($"{Address}/{id}/steps/drain", new { }, Stop)));
        Assert.Equal(before, await shop.FootprintAsync());

        await ToAsync(client, id, "refill", from: "drain");
        Assert.Equal(["draws[0].lot"], await FieldsAsync(await client.PutAsJsonAsync($"{Address}/{id}/steps/refill", new { waterLitres = 140, draws = new[] { new { lot = "L-99", litres = 12 } } }, Stop)));
        Assert.Equal(["draws[0].litres"], await FieldsAsync(await client.PutAsJsonAsync($"{Address}/{id}/steps/refill", new { waterLitres = 1, draws = new[] { new { lot = "l-1", litres = 190 } } }, Stop)));
    }

    [Theory, EachDatabase]
    public async Task Write_OutOfOrderUnknownOrWithoutTheRight_IsRefusedByName(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);
        var id = Some.Id();
        await client.PostAsJsonAsync(Address, Plan(id), Stop);

        await RefusedAsync(HttpStatusCode.Conflict, "stepMissing", await client.PutAsJsonAsync($"{Address}/{id}/steps/drain", new { waste = new[] { new { code = "12 01 09*", litres = 100 } } }, Stop));
        await ToAsync(client, id, "lockOut");
        await RefusedAsync(HttpStatusCode.Conflict, "stepNeeded", await client.PutAsJsonAsync($"{Address}/{id}/steps/lockOut", new { leftOut = true, reason = "Quick job" }, Stop));
        await RefusedAsync(HttpStatusCode.NotFound, "stepNotFound", await client.PutAsJsonAsync($"{Address}/{id}/steps/polish", new { }, Stop));
        await RefusedAsync(HttpStatusCode.NotFound, "cleanOutNotFound", await client.PutAsJsonAsync($"{Address}/{Some.Id()}/steps/drain", new { }, Stop));
        await RefusedAsync(HttpStatusCode.NotFound, "cleanOutNotFound", await client.GetAsync($"{Address}/{Some.Id()}", Stop));
        await RefusedAsync(HttpStatusCode.NotFound, "sumpNotFound", await client.GetAsync("/api/v1/sumps/S-99/clean-out", Stop));
        await RefusedAsync(HttpStatusCode.NotFound, "sumpNotFound", await client.PostAsJsonAsync(Address, Plan(Some.Id(), sump: "S-99"), Stop));
        var auditor = await host.ClientOfAsync(Roles.Auditor);
        Assert.Equal(HttpStatusCode.Forbidden, (await auditor.PutAsJsonAsync($"{Address}/{id}/steps/lockOut", new { }, Stop)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await auditor.GetAsync($"{Address}/{id}", Stop)).StatusCode);

        var early = new { id = Some.Id(), sump = Some.SumpTag, takenAt = host.Clock.GetUtcNow(), measurements = new[] { new { parameter = "ph", value = 9.0 } } };
        await RefusedAsync(HttpStatusCode.Conflict, "stepMissing", await client.PostAsJsonAsync($"{Address}/{id}/finish", early, Stop));
        Assert.Equal(["sump"], await FieldsAsync(await client.PostAsJsonAsync($"{Address}/{id}/finish", early with { sump = "S-08" }, Stop)));
        Assert.Equal(["reason"], await FieldsAsync(await client.PostAsJsonAsync($"{Address}/{id}/break-off", new { }, Stop)));
        var broken = await client.PostAsJsonAsync($"{Address}/{id}/break-off", new { reason = "Spare part missing" }, Stop);
        Assert.Equal(HttpStatusCode.OK, (await client.PostAsJsonAsync($"{Address}/{id}/break-off", new { reason = "Spare part missing" }, Stop)).StatusCode);
        Assert.Equal(("brokenOff", "Spare part missing"), ((await BodyAsync(broken)).GetProperty("state").GetString(), (await BodyAsync(broken)).GetProperty("reason").GetString()));
        await RefusedAsync(HttpStatusCode.Conflict, "cleanOutOver", await client.PostAsJsonAsync($"{Address}/{id}/break-off", new { reason = "Another" }, Stop));
        Assert.Equal(0, await shop.ReadAsync(db => db.Removals.CountAsync(Stop)));
        Assert.Equal(HttpStatusCode.Created, (await client.PostAsJsonAsync(Address, Plan(Some.Id()), Stop)).StatusCode);
    }

    [Theory, EachDatabase]
    public async Task Finish_LotSetApartMeanwhile_IsRefusedAtItsRow(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);
        var id = Some.Id();
        await client.PostAsJsonAsync(Address, Plan(id), Stop);
        await ToAsync(client, id, "");
        (await shop.Get<QuarantineLotHandler>().HandleAsync(new QuarantineLot(shop.LotId, "Skin on top"), Actor.Program, Stop)).Done();
        var before = await shop.FootprintAsync();

        var reading = new { id = Some.Id(), sump = Some.SumpTag, takenAt = host.Clock.GetUtcNow(), measurements = new[] { new { parameter = "ph", value = 9.0 } } };
        var answer = await client.PostAsJsonAsync($"{Address}/{id}/finish", reading, Stop);

        Assert.Equal((HttpStatusCode.Conflict, "refillNotPossible"), (answer.StatusCode, await CodeAsync(answer)));
        Assert.Equal(["draws[0].lot"], await FieldsAsync(answer));
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Fact]
    public async Task Description_NamesTheCallsAndTheirBodies()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var host = await TestHost.StartAsync(database);
        var described = await (await host.ClientOfAsync(Roles.Auditor)).GetFromJsonAsync<JsonElement>("/api/v1/openapi.json", Stop);

        var paths = described.GetProperty("paths").EnumerateObject().Select(p => p.Name).ToList();
        Assert.Contains("/api/v1/clean-outs/{id}/steps/{step}", paths);
        Assert.Contains("/api/v1/clean-outs/{id}/finish", paths);
        Assert.Contains("/api/v1/shutdowns/{id}/end", paths);
        var step = described.GetProperty("components").GetProperty("schemas").GetProperty("CleanOutStepRequest");
        Assert.Contains("sludgeMm", step.GetProperty("properties").EnumerateObject().Select(p => p.Name));
        Assert.False(step.TryGetProperty("required", out _));
    }

    private static object Plan(Guid id, decimal content = 150, int rinses = 2, string sump = Some.SumpTag) =>
        new { id, sump, contentLitres = content, heelLitres = 10, cleanerPercent = 2, circulationHours = 12, rinses, rinseLitres = 30 };

    private static IEnumerable<(string Step, object Body)> Steps() =>
    [
        ("safetySheets", new { confirmed = CleanOutConfirmations.Of(CleanOutStepKind.SafetySheets) }),
        ("cleaner", new { cleanerLitres = 3, hours = 12, shortReason = "In since yesterday evening" }),
        ("carrier", new { confirmed = CleanOutConfirmations.Of(CleanOutStepKind.Carrier).Reverse(), carrier = "Hall carrier, container 4" }),
        ("lockOut", new { confirmed = CleanOutConfirmations.Of(CleanOutStepKind.LockOut), note = "Lock 7" }),
        ("drain", new { waste = new[] { new { code = "12 01 09*", litres = 141 }, new { code = "13 05 06*", litres = 2 } }, sludgeMm = 35 }),
        ("wipe", new { leftOut = true, reason = "Nothing to wipe" }),
        ("rinse", new { waste = new[] { new { code = "12 01 09*", litres = 60 } } }),
        ("inspect", new { seen = "Intake screen cracked, replaced" }),
        ("unlock", new { confirmed = CleanOutConfirmations.Of(CleanOutStepKind.Unlock) }),
        ("refill", new { waterLitres = 147.2m, draws = new[] { new { lot = " l-1 ", litres = 12.8m } } }),
    ];

    /// <summary>Every step from one up to another, which stays open.</summary>
    private static async Task ToAsync(HttpClient client, Guid id, string before, string from = "safetySheets")
    {
        foreach (var (step, body) in Steps().SkipWhile(s => s.Step != from).TakeWhile(s => s.Step != before))
        {
            Assert.Equal(HttpStatusCode.Created, (await client.PutAsJsonAsync($"{Address}/{id}/steps/{step}", body, Stop)).StatusCode);
        }
    }

    private static async Task RefusedAsync(HttpStatusCode status, string code, HttpResponseMessage answer)
    {
        Assert.Equal((status, code), (answer.StatusCode, await CodeAsync(answer)));
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
    }

    // As text, which may be read again.
    private static async Task<JsonElement> BodyAsync(HttpResponseMessage answer) => JsonDocument.Parse(await answer.Content.ReadAsStringAsync(Stop)).RootElement;

    private static async Task<string?> CodeAsync(HttpResponseMessage answer) => (await BodyAsync(answer)).GetProperty("code").GetString();

    private static async Task<IEnumerable<string>> FieldsAsync(HttpResponseMessage answer) =>
        [.. (await BodyAsync(answer)).GetProperty("errors").EnumerateArray().Select(e => e.GetProperty("field").GetString() ?? "")];
}
