using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Doses;
using ShopFluids.Core.People;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Tests.Hosting;
using Xunit;

namespace ShopFluids.Web.Tests.Api;

public sealed class DosesApiTests
{
    private const string Address = "/api/v1/doses";

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task Post_WhatWasDosed_IsStoredOnce(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);
        var body = Body();

        var first = await client.PostAsJsonAsync(Address, body, Token);
        var again = await client.PostAsJsonAsync(Address, body, Token);
        body["doseAmount"] = 181;
        var other = await client.PostAsJsonAsync(Address, body, Token);

        Assert.Equal((HttpStatusCode.Created, HttpStatusCode.OK, HttpStatusCode.UnprocessableEntity), (first.StatusCode, again.StatusCode, other.StatusCode));
        var answer = await first.Content.ReadFromJsonAsync<JsonElement>(Token);
        Assert.Equal((1.2m, "mL/L", "2026-03-02T11:00:00Z"), (answer.GetProperty("reached").GetDecimal(), answer.GetProperty("labelUnit").GetString(), answer.GetProperty("reentryFrom").GetString()));
        var dose = await shop.ReadAsync(db => db.Doses.SingleAsync());
        Assert.Equal(("Biocide B-20", DoseKind.Biocide, 180m, 1.5m), (dose.Product, dose.Kind, dose.Amount, dose.LabelMost));
    }

    [Theory]
    [EachDatabase("doseKind", "poison", "doseKind")]
    [EachDatabase("doseUnit", "cups", "doseUnit")]
    [EachDatabase("labelUnit", "lots", "labelUnit")]
    [EachDatabase("doseAmount", "much", "doseAmount")]
    [EachDatabase("doseAmount", "226", "doseAmount")]
    [EachDatabase("safetyConfirmed", null, "safetyConfirmed")]
    [EachDatabase("product", null, "product")]
    [EachDatabase("reason", null, "reason")]
    public async Task Post_WhatCannotBe_NamesTheFieldAndStoresNothing(TestDatabase database, string field, string? value, string named)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);
        var body = Body();
        body[field] = value;
        var before = await shop.FootprintAsync();

        var answer = await client.PostAsJsonAsync(Address, body, Token);

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        var problem = await answer.Content.ReadFromJsonAsync<JsonElement>(Token);
        Assert.Equal([named], problem.GetProperty("errors").EnumerateArray().Select(f => f.GetProperty("field").GetString() ?? ""));
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task Post_GivenAllTheSame_IsStoredForASupervisorAlone(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var body = Body();
        (body["doseAmount"], body["givenAllTheSame"]) = (300, "Poured twice");

        Assert.Equal(HttpStatusCode.BadRequest, (await (await host.ClientOfAsync(Roles.Operator)).PostAsJsonAsync(Address, body, Token)).StatusCode);
        Assert.Equal(HttpStatusCode.Created, (await (await host.ClientOfAsync(Roles.Supervisor)).PostAsJsonAsync(Address, body, Token)).StatusCode);
        Assert.Equal("Poured twice", (await shop.ReadAsync(db => db.Doses.SingleAsync())).AgainstLabelReason);
    }

    [Theory, EachDatabase]
    public async Task StrikeOut_BySupervisor_IsStoredOnceAndAnOperatorIsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var body = Body();
        var op = await host.ClientOfAsync(Roles.Operator);
        await op.PostAsJsonAsync(Address, body, Token);
        var address = $"{Address}/{body["id"]}/strike-out";
        var strike = new Dictionary<string, object?>(StringComparer.Ordinal) { ["id"] = Some.Id(), ["strikeReason"] = "Wrong sump" };

        Assert.Equal(HttpStatusCode.Forbidden, (await op.PostAsJsonAsync(address, strike, Token)).StatusCode);
        var supervisor = await host.ClientOfAsync(Roles.Supervisor);
        Assert.Equal(HttpStatusCode.Created, (await supervisor.PostAsJsonAsync(address, strike, Token)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await supervisor.PostAsJsonAsync(address, strike, Token)).StatusCode);
        strike["id"] = Some.Id();
        Assert.Equal(HttpStatusCode.Conflict, (await supervisor.PostAsJsonAsync(address, strike, Token)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await supervisor.PostAsJsonAsync($"{Address}/{Some.Id()}/strike-out", strike, Token)).StatusCode);
        strike["strikeReason"] = " ";
        Assert.Equal(HttpStatusCode.BadRequest, (await supervisor.PostAsJsonAsync(address, strike, Token)).StatusCode);
        Assert.Equal("Wrong sump", (await shop.ReadAsync(db => db.DoseStrikes.SingleAsync())).Reason);
    }

    [Theory, EachDatabase]
    public async Task Post_AnAuditorOrAnUnknownSump_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var body = Body();

        var auditor = await (await host.ClientOfAsync(Roles.Auditor)).PostAsJsonAsync(Address, body, Token);
        body["sump"] = "S-99";
        var unknown = await (await host.ClientOfAsync(Roles.Operator)).PostAsJsonAsync(Address, body, Token);

        Assert.Equal((HttpStatusCode.Forbidden, HttpStatusCode.NotFound), (auditor.StatusCode, unknown.StatusCode));
    }

    private static Dictionary<string, object?> Body() => new(StringComparer.Ordinal)
    {
        ["id"] = Some.Id(),
        ["sump"] = "s-07",
        ["givenAt"] = "2026-03-02T08:00:00+01:00",
        ["product"] = " Biocide B-20 ",
        ["doseKind"] = "biocide",
        ["doseAmount"] = "180,0",
        ["doseUnit"] = "mL",
        ["doseVolumeLitres"] = 150,
        ["reason"] = "Smell on Monday",
        ["labelUnit"] = "mL/L",
        ["labelMost"] = 1.5m,
        ["labelHours"] = 96,
        ["reentryHours"] = 4,
        ["safetyConfirmed"] = true,
    };
}
