using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using ShopFluids.Core.Bench;
using ShopFluids.Core.People;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Tests.Hosting;
using Xunit;

namespace ShopFluids.Web.Tests.Bench;

public sealed class BenchApiTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Get_List_DescribesEveryCalculatorWithItsRanges()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Auditor);

        var list = await client.GetFromJsonAsync<JsonElement>("/api/v1/bench", Token);

        var items = list.GetProperty("items").EnumerateArray().ToDictionary(i => i.GetProperty("code").GetString() ?? "");
        Assert.Equal(new BenchList().Calculators.Select(c => c.Code), items.Keys);
        var percent = items["fresh-mix"].GetProperty("input").GetProperty("properties").GetProperty("percent");
        Assert.Equal((0.01m, 100m, "%"), (percent.GetProperty("minimum").GetDecimal(), percent.GetProperty("maximum").GetDecimal(), percent.GetProperty("unit").GetString()));
        Assert.Contains("percent", items["fresh-mix"].GetProperty("input").GetProperty("required").EnumerateArray().Select(r => r.GetString()));
    }

    [Fact]
    public async Task Post_FreshMix_AnswersValuesStepsAndSource()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);

        var response = await client.PostAsJsonAsync("/api/v1/bench/fresh-mix", new { volumeLitres = 20, percent = "7,5", measurableLitres = 0.1 }, Token);

        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        var answer = await response.Content.ReadFromJsonAsync<JsonElement>(Token);
        Assert.Equal(1.5, answer.GetProperty("values").GetProperty("concentrateLitres").GetProperty("value").GetDouble());
        Assert.Equal("L", answer.GetProperty("values").GetProperty("concentrateLitres").GetProperty("unit").GetString());
        Assert.NotEmpty(answer.GetProperty("steps").EnumerateArray());
        Assert.NotEqual("", answer.GetProperty("source").GetString());
    }

    [Fact]
    public async Task Post_EwmaChart_AnswersARowForEachReading()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);

        var response = await client.PostAsJsonAsync("/api/v1/bench/ewma-chart", new { values = new[] { 1.0, 3.0, 20.0 }, centre = 2, sigma = 1, weight = 0.5, widthSigmas = 3 }, Token);

        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        var table = (await response.Content.ReadFromJsonAsync<JsonElement>(Token)).GetProperty("table");
        Assert.Equal(["value", "ewma", "lowerLimit", "upperLimit"], table.GetProperty("columns").EnumerateArray().Select(c => c.GetString()));
        var rows = table.GetProperty("rows").EnumerateArray().ToList();
        Assert.Equal([1.5, 2.25, 11.125], rows.Select(r => r.GetProperty("values")[1].GetDouble()));
        Assert.Equal([false, false, true], rows.Select(r => r.GetProperty("beyond").GetBoolean()));
    }

    [Theory]
    [InlineData("""{"volumeLitres":20,"percent":140,"measurableLitres":0.1}""", "percent", "outOfRange")]
    [InlineData("""{"volumeLitres":20,"measurableLitres":0.1}""", "percent", "missing")]
    [InlineData("""{"volumeLitres":[20],"percent":"x","measurableLitres":0.1}""", "percent", "notANumber")]
    [InlineData("""{"volumeLitres":20,"percent":true,"measurableLitres":0.1}""", "percent", "notANumber")]
    [InlineData("""{"volumeLitres":20,"percent":8,"measurableLitres":50}""", "volumeLitres", "doesNotFit")]
    public async Task Post_WrongValue_NamesTheField(string body, string field, string problem)
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);

        var response = await client.PostAsync("/api/v1/bench/fresh-mix", new StringContent(body, System.Text.Encoding.UTF8, "application/json"), Token);

        Assert.Equal(HttpStatusCode.BadRequest, response.StatusCode);
        var fault = Assert.Single((await response.Content.ReadFromJsonAsync<JsonElement>(Token)).GetProperty("errors").EnumerateArray());
        Assert.Equal((field, problem), (fault.GetProperty("field").GetString(), fault.GetProperty("problem").GetString()));
    }

    [Fact]
    public async Task Post_UnknownCalculator_Answers404()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);

        Assert.Equal(HttpStatusCode.NotFound, (await client.PostAsJsonAsync("/api/v1/bench/horoscope", new { }, Token)).StatusCode);
    }
}
