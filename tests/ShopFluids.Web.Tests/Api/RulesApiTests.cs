using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using ShopFluids.Core.People;
using ShopFluids.Core.Tuning;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Tests.Hosting;
using Xunit;

namespace ShopFluids.Web.Tests.Api;

/// <summary>The rules over the API: what holds where, and setting it.</summary>
public sealed class RulesApiTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task Set_ForAFluid_HoldsForItsSumpAndSaysSo(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Supervisor);
        var body = new { id = Some.Id(), fluid = "emulsion a", isOn = (bool?)null, numbers = new { horizonDays = 21 }, reason = "Trial", setNumber = 0 };

        var answer = await client.PutAsJsonAsync("/api/v1/rules/drift", body, Stop);
        var again = await client.PutAsJsonAsync("/api/v1/rules/drift", body, Stop);
        var list = await client.GetFromJsonAsync<JsonElement>($"/api/v1/rules?sump={Some.SumpTag}", Stop);

        Assert.Equal((HttpStatusCode.OK, HttpStatusCode.OK), (answer.StatusCode, again.StatusCode));
        Assert.Equal(1, (await answer.Content.ReadFromJsonAsync<JsonElement>(Stop)).GetProperty("setNumber").GetInt32());
        var drift = list.GetProperty("items").EnumerateArray().Single(r => r.GetProperty("code").GetString() == "drift");
        var number = drift.GetProperty("numbers").EnumerateArray().Single(n => n.GetProperty("name").GetString() == "horizonDays");
        Assert.Equal((21, "fluid", 14, 2, 90), (number.GetProperty("value").GetInt32(), number.GetProperty("from").GetString(), number.GetProperty("default").GetInt32(), number.GetProperty("least").GetInt32(), number.GetProperty("most").GetInt32()));
        Assert.Equal((true, "shipped", 0), (drift.GetProperty("isOn").GetBoolean(), drift.GetProperty("onFrom").GetString(), drift.GetProperty("setNumber").GetInt32()));
        Assert.Equal(1, await shop.CountAsync<RuleSetting>());
    }

    [Theory, EachDatabase]
    public async Task Set_BadFields_NamesEachWithItsRange(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Supervisor);

        var answer = await client.PutAsJsonAsync("/api/v1/rules/drift", new { id = Some.Id(), numbers = new { horizonDays = 91, leastReadings = 5.5, luck = 7 } }, Stop);
        var typed = await client.PutAsJsonAsync("/api/v1/rules/drift", new { isOn = "yes", numbers = new { horizonDays = "many" }, reason = "Trial" }, Stop);

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        var errors = (await answer.Content.ReadFromJsonAsync<JsonElement>(Stop)).GetProperty("errors").EnumerateArray().ToList();
        Assert.Equal(
            [("numbers.horizonDays", "outOfRange"), ("numbers.leastReadings", "notWhole"), ("numbers.luck", "unknownChoice"), ("reason", "missing")],
            errors.Select(e => (e.GetProperty("field").GetString() ?? "", e.GetProperty("problem").GetString() ?? "")));
        Assert.Equal((2, 90), (errors[0].GetProperty("low").GetInt32(), errors[0].GetProperty("high").GetInt32()));
        Assert.Equal(HttpStatusCode.BadRequest, typed.StatusCode);
        var faults = (await typed.Content.ReadFromJsonAsync<JsonElement>(Stop)).GetProperty("errors").EnumerateArray().Select(e => e.GetProperty("field").GetString());
        Assert.Equal(["id", "isOn", "numbers.horizonDays"], faults);
        Assert.Equal(0, await shop.CountAsync<RuleSetting>());
    }

    [Theory, EachDatabase]
    public async Task Set_StaleUnknownOrWithoutTheRight_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Supervisor);
        var numbers = new { horizonDays = 21 };
        Assert.Equal(HttpStatusCode.OK, (await client.PutAsJsonAsync("/api/v1/rules/drift", new { id = Some.Id(), numbers, reason = "Trial" }, Stop)).StatusCode);

        Assert.Equal("changedMeanwhile", await CodeAsync(client, "drift", new { id = Some.Id(), isOn = false, reason = "Trial", setNumber = 0 }, HttpStatusCode.Conflict));
        Assert.Equal("nothingChanged", await CodeAsync(client, "drift", new { id = Some.Id(), numbers, reason = "Trial", setNumber = 1 }, HttpStatusCode.Conflict));
        Assert.Equal("ruleNotFound", await CodeAsync(client, "limit", new { id = Some.Id(), isOn = false, reason = "Trial" }, HttpStatusCode.NotFound));
        Assert.Equal("sumpNotFound", await CodeAsync(client, "drift", new { id = Some.Id(), sump = "S-99", isOn = false, reason = "Trial" }, HttpStatusCode.NotFound));
        Assert.Equal("fluidNotFound", await CodeAsync(client, "drift", new { id = Some.Id(), fluid = "None", isOn = false, reason = "Trial" }, HttpStatusCode.NotFound));
        var operators = await host.ClientOfAsync(Roles.Operator);
        Assert.Equal(HttpStatusCode.Forbidden, (await operators.PutAsJsonAsync("/api/v1/rules/drift", new { id = Some.Id(), isOn = false, reason = "Trial", setNumber = 1 }, Stop)).StatusCode);
        Assert.Equal(1, await shop.CountAsync<RuleSetting>());
    }

    private static async Task<string?> CodeAsync(HttpClient client, string rule, object body, HttpStatusCode status)
    {
        var answer = await client.PutAsJsonAsync($"/api/v1/rules/{rule}", body, Stop);
        Assert.Equal(status, answer.StatusCode);
        return (await answer.Content.ReadFromJsonAsync<JsonElement>(Stop)).GetProperty("code").GetString();
    }
}
