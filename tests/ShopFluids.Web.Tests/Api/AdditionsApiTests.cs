using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.People;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Tests.Hosting;
using Xunit;

namespace ShopFluids.Web.Tests.Api;

public sealed class AdditionsApiTests
{
    private const string Address = "/api/v1/additions";

    [Theory, EachDatabase]
    public async Task Post_WhatWasPoured_IsStoredOnceAndDoesTheAdjustment(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var outcome = await shop.StoreAsync(Some.Reading(brix: 4.1m, levelMm: 250, takenAt: Some.Start.AddHours(-1)));
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);
        var body = new { id = Some.Id(), sump = "s-07", addedAt = "2026-03-02T08:00:00+01:00", waterLitres = "20,5", concentrateLitres = 4, lot = " l-1 ", reading = outcome.ReadingId };

        var first = await client.PostAsJsonAsync(Address, body, TestContext.Current.CancellationToken);
        var again = await client.PostAsJsonAsync(Address, body, TestContext.Current.CancellationToken);
        var other = await client.PostAsJsonAsync(Address, body with { concentrateLitres = 5 }, TestContext.Current.CancellationToken);

        Assert.Equal((HttpStatusCode.Created, HttpStatusCode.OK, HttpStatusCode.UnprocessableEntity), (first.StatusCode, again.StatusCode, other.StatusCode));
        Assert.Equal(149.5, (await first.Content.ReadFromJsonAsync<JsonElement>(TestContext.Current.CancellationToken)).GetProperty("volumeLitres").GetDouble(), 6);
        var added = await shop.ReadAsync(db => db.Additions.SingleAsync(a => a.ReadingId != null));
        Assert.Equal((20.5m, 4m, (Guid?)shop.LotId), (added.WaterLitres, added.ConcentrateLitres, added.LotId));
        Assert.Equal(0, await shop.ReadAsync(db => db.CareTasks.CountAsync(t => t.Kind == TaskKind.Adjust && t.State == TaskState.Open)));
    }

    [Theory]
    [EachDatabase("{\"sump\": \"S-07\"}", "id,addedAt")]
    [EachDatabase("{\"id\": \"0192c3d4-0000-7000-8000-000000000001\", \"sump\": \"S-07\", \"addedAt\": \"2026-03-02T08:00:00+01:00\"}", "waterLitres")]
    [EachDatabase("{\"id\": \"0192c3d4-0000-7000-8000-000000000001\", \"sump\": \"S-07\", \"addedAt\": \"2026-03-02T08:00:00+01:00\", \"waterLitres\": \"much\"}", "waterLitres")]
    [EachDatabase("{\"id\": \"0192c3d4-0000-7000-8000-000000000001\", \"sump\": \"S-07\", \"addedAt\": \"2026-03-02T08:00:00+01:00\", \"concentrateLitres\": 1}", "lot")]
    [EachDatabase("{\"id\": \"0192c3d4-0000-7000-8000-000000000001\", \"sump\": \"S-07\", \"addedAt\": \"2026-03-02T08:00:00+01:00\", \"concentrateLitres\": 1, \"lot\": \"L-99\"}", "lot")]
    public async Task Post_WhatCannotBe_NamesTheFieldsAndStoresNothing(TestDatabase database, string body, string fields)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);
        var before = await shop.FootprintAsync();

        var answer = await client.PostAsync(Address, new StringContent(body, System.Text.Encoding.UTF8, "application/json"), TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        var problem = await answer.Content.ReadFromJsonAsync<JsonElement>(TestContext.Current.CancellationToken);
        Assert.Equal(fields.Split(','), problem.GetProperty("errors").EnumerateArray().Select(f => f.GetProperty("field").GetString() ?? ""));
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task Post_UnknownSumpOrAnAuditor_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var body = new { id = Some.Id(), sump = "S-99", addedAt = "2026-03-02T08:00:00+01:00", concentrateLitres = 5, lot = "L-1" };

        var unknown = await (await host.ClientOfAsync(Roles.Operator)).PostAsJsonAsync(Address, body, TestContext.Current.CancellationToken);
        var auditor = await (await host.ClientOfAsync(Roles.Auditor)).PostAsJsonAsync(Address, body with { sump = "S-07" }, TestContext.Current.CancellationToken);

        Assert.Equal((HttpStatusCode.NotFound, HttpStatusCode.Forbidden), (unknown.StatusCode, auditor.StatusCode));
    }
}
