using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json;
using ShopFluids.Core.People;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using ShopFluids.Web.Tests.Hosting;
using Xunit;

namespace ShopFluids.Web.Tests.Api;

public sealed class ReadingsApiTests
{
    private const string Id = "0198c0de-0000-7000-8000-000000000001";

    [Theory, EachDatabase]
    public async Task Post_NewThenRepeatedThenOther_Answers201And200And422(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);

        var first = await PostAsync(client, Body("4.1"));
        var again = await PostAsync(client, Body("4.1"));
        var other = await PostAsync(client, Body("4.2"));

        Assert.Equal(HttpStatusCode.Created, first.Status);
        Assert.Equal(HttpStatusCode.OK, again.Status);
        Assert.Equal(first.Json.GetRawText(), again.Json.GetRawText());
        Assert.Equal(HttpStatusCode.UnprocessableEntity, other.Status);
        Assert.Equal("otherContentForId", other.Json.GetProperty("code").GetString());
        Assert.Equal(1, await shop.CountAsync<Core.Readings.Reading>());
    }

    [Theory, EachDatabase]
    public async Task Post_LowConcentration_AnswersVerdictAdviceFlagsAndTasks(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);

        var (_, json) = await PostAsync(client, Body("4.1"));

        Assert.Equal("S-07", json.GetProperty("sump").GetString());
        Assert.Equal("action", json.GetProperty("verdict").GetString());
        var concentration = json.GetProperty("measurements").EnumerateArray().Single(m => m.GetProperty("parameter").GetString() == "concentration");
        Assert.Equal(4.1m, concentration.GetProperty("value").GetDecimal());
        Assert.Equal("low", concentration.GetProperty("direction").GetString());
        Assert.True(json.GetProperty("advice").GetProperty("concentrateLitres").GetDouble() > 0);
        Assert.True(json.GetProperty("advice").GetProperty("expectedPercent").GetDouble() > 4.1);
        Assert.NotEmpty(json.GetProperty("flagsRaised").EnumerateArray());
        Assert.Contains(json.GetProperty("tasksMade").EnumerateArray(), t => t.GetProperty("kind").GetString() == "adjust");
    }

    [Theory]
    [InlineData("ph", "\"abc\"", "notANumber", 0, 14)]
    [InlineData("ph", "10000000000000", "outOfRange", 0, 14)]
    [InlineData("concentration", "\"strong\"", "notANumber", 0, 30)]
    [InlineData("level", "\"full\"", "notANumber", 0, 400)]
    public async Task Post_NoNumber_NamesTheAcceptedRange(string parameter, string value, string problem, int low, int high)
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);
        var body = $$"""{ "id": "{{Id}}", "sump": "S-07", "takenAt": "2026-03-02T08:00:00+01:00", "measurements": [ { "parameter": "{{parameter}}", "value": {{value}} } ] }""";

        var (status, json) = await PostAsync(client, body);

        Assert.Equal(HttpStatusCode.BadRequest, status);
        var field = Assert.Single(json.GetProperty("errors").EnumerateArray().ToList());
        Assert.Equal(problem, field.GetProperty("problem").GetString());
        Assert.Equal((low, high), (field.GetProperty("low").GetInt32(), field.GetProperty("high").GetInt32()));
        Assert.Contains($"{high}", field.GetProperty("message").GetString(), StringComparison.Ordinal);
    }

    [Theory, EachDatabase]
    public async Task Preview_GoodReading_AnswersTheSameAndStoresNothing(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);
        var before = await shop.FootprintAsync();

        var preview = await PostAsync(client, Body("4.1"), "/api/v1/readings/preview");

        Assert.Equal(HttpStatusCode.OK, preview.Status);
        Assert.Equal("action", preview.Json.GetProperty("verdict").GetString());
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory, EachDatabase]
    public async Task Post_ImplausibleValues_NamesEachFieldWithItsRange(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);
        var before = await shop.FootprintAsync();

        var (status, json) = await PostAsync(client, $$"""
            { "id": "{{Id}}", "sump": "S-07", "takenAt": "2026-03-02T08:00:00+01:00", "measurements": [
              { "parameter": "ph", "value": 15 }, { "parameter": "concentration", "value": 80, "unit": "Brix" }, { "parameter": "level", "value": 412, "unit": "mm" } ] }
            """);

        Assert.Equal(HttpStatusCode.BadRequest, status);
        var errors = json.GetProperty("errors").EnumerateArray().ToDictionary(e => e.GetProperty("field").GetString()!);
        Assert.Equal(["measurements.concentration", "measurements.level", "measurements.ph"], errors.Keys.Order(StringComparer.Ordinal));
        Assert.Equal("overTheBrim", errors["measurements.level"].GetProperty("problem").GetString());
        Assert.Equal(400m, errors["measurements.level"].GetProperty("high").GetDecimal());
        Assert.Equal("mm", errors["measurements.level"].GetProperty("unit").GetString());
        Assert.Contains("400", errors["measurements.level"].GetProperty("message").GetString(), StringComparison.Ordinal);
        Assert.Equal("outOfRange", errors["measurements.ph"].GetProperty("problem").GetString());
        Assert.Equal(before, await shop.FootprintAsync());
    }

    [Theory]
    [InlineData("""{ "sump": "S-07", "takenAt": "2026-03-02T08:00:00Z", "measurements": [ { "parameter": "ph", "value": 9 } ] }""", "id", "missing")]
    [InlineData("""{ "id": "seven", "sump": "S-07", "takenAt": "2026-03-02T08:00:00Z", "measurements": [ { "parameter": "ph", "value": 9 } ] }""", "id", "notAnId")]
    [InlineData("""{ "id": 7, "sump": "S-07", "takenAt": "2026-03-02T07:00:00Z", "measurements": [ { "parameter": "ph", "value": 9 } ] }""", "id", "notAText")]
    [InlineData("""{ "id": "0198c0de-0000-7000-8000-000000000001", "takenAt": "2026-03-02T07:00:00Z", "measurements": [ { "parameter": "ph", "value": 9 } ] }""", "sump", "missing")]
    [InlineData("""{ "id": "0198c0de-0000-7000-8000-000000000001", "sump": "S-07", "takenAt": "2026-03-02T07:00:00", "measurements": [ { "parameter": "ph", "value": 9 } ] }""", "takenAt", "notAnInstant")]
    [InlineData("""{ "id": "0198c0de-0000-7000-8000-000000000001", "sump": "S-07", "takenAt": "02/03/2026 07:12+01:00", "measurements": [ { "parameter": "ph", "value": 9 } ] }""", "takenAt", "notAnInstant")]
    [InlineData("""{ "id": "0198c0de-0000-7000-8000-000000000001", "sump": "S-07", "takenAt": "2026-02-30T07:12:00Z", "measurements": [ { "parameter": "ph", "value": 9 } ] }""", "takenAt", "notAnInstant")]
    [InlineData("""{ "id": "0198c0de-0000-7000-8000-000000000001", "sump": "S-07", "takenAt": "Mon, 02 Mar 2026 07:00:00Z", "measurements": [ { "parameter": "ph", "value": 9 } ] }""", "takenAt", "notAnInstant")]
    [InlineData("""{ "id": "0198c0de-0000-7000-8000-000000000001", "sump": "S-07", "takenAt": "2026-03-03T07:00:00Z", "measurements": [ { "parameter": "ph", "value": 9 } ] }""", "takenAt", "inTheFuture")]
    [InlineData("""{ "id": "0198c0de-0000-7000-8000-000000000001", "sump": "S-07", "takenAt": "2026-03-02T07:00:00Z", "measurements": [] }""", "measurements", "nothingMeasured")]
    [InlineData("""{ "id": "0198c0de-0000-7000-8000-000000000001", "sump": "S-07", "takenAt": "2026-03-02T07:00:00Z", "measurements": 9 }""", "measurements", "notAList")]
    [InlineData("""{ "id": "0198c0de-0000-7000-8000-000000000001", "sump": "S-07", "takenAt": "2026-03-02T07:00:00Z", "measurements": [ { "value": 9 } ] }""", "measurements[0].parameter", "missing")]
    [InlineData("""{ "id": "0198c0de-0000-7000-8000-000000000001", "sump": "S-07", "takenAt": "2026-03-02T07:00:00Z", "measurements": [ { "parameter": "ph" } ] }""", "measurements.ph", "missing")]
    [InlineData("""{ "id": "0198c0de-0000-7000-8000-000000000001", "sump": "S-07", "takenAt": "2026-03-02T07:00:00Z", "measurements": [ { "parameter": "ph", "value": "nine" } ] }""", "measurements.ph", "notANumber")]
    [InlineData("""{ "id": "0198c0de-0000-7000-8000-000000000001", "sump": "S-07", "takenAt": "2026-03-02T07:00:00Z", "measurements": [ { "parameter": "ph", "value": true } ] }""", "measurements.ph", "notANumber")]
    [InlineData("""{ "id": "0198c0de-0000-7000-8000-000000000001", "sump": "S-07", "takenAt": "2026-03-02T07:00:00Z", "measurements": [ { "parameter": "ph", "value": 1e300 } ] }""", "measurements.ph", "notANumber")]
    [InlineData("""{ "id": "0198c0de-0000-7000-8000-000000000001", "sump": "S-07", "takenAt": "2026-03-02T07:00:00Z", "note": "a\u0000b", "measurements": [ { "parameter": "ph", "value": 9 } ] }""", "note", "notAText")]
    [InlineData("""{ "id": "0198c0de-0000-7000-8000-000000000001", "sump": "S-07", "takenAt": "2026-03-02T07:00:00Z", "note": "a\ud800b", "measurements": [ { "parameter": "ph", "value": 9 } ] }""", "note", "notAText")]
    [InlineData("""{ "id": "0198c0de-0000-7000-8000-000000000001", "sump": "S-07", "takenAt": "2026-03-02T07:00:00Z", "measurements": [ { "parameter": "level", "value": 300, "unit": "furlong" } ] }""", "measurements.level.unit", "unknownUnit")]
    [InlineData("""{ "id": "0198c0de-0000-7000-8000-000000000001", "sump": "S-07", "takenAt": "2026-03-02T07:00:00Z", "measurements": [ { "parameter": "hardness", "value": "1,200" } ] }""", "measurements.hardness", "maybeThousands")]
    [InlineData("""{ "id": "0198c0de-0000-7000-8000-000000000001", "sump": "S-07", "takenAt": "2026-03-02T07:00:00Z", "measurements": [ { "parameter": "taste", "value": 3 } ] }""", "measurements.taste", "unknownParameter")]
    public async Task Post_BadField_NamesItAndItsProblem(string body, string field, string problem)
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);

        var (status, json) = await PostAsync(client, body);

        Assert.Equal(HttpStatusCode.BadRequest, status);
        var error = Assert.Single(json.GetProperty("errors").EnumerateArray().ToList());
        Assert.Equal(field, error.GetProperty("field").GetString());
        Assert.Equal(problem, error.GetProperty("problem").GetString());
        Assert.NotEqual("", error.GetProperty("message").GetString());
    }

    // Programs write decimals with a point, also in texts; who writes a comma may mean thousands.
    [Theory]
    [InlineData("8.9")]
    [InlineData("\"8.9\"")]
    [InlineData("\"8,9\"")]
    [InlineData("\"8.900\"")]
    public async Task Post_NumberWithPointOrComma_IsTheSameNumber(string value)
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);

        var (status, json) = await PostAsync(client, $$"""
            { "id": "{{Id}}", "sump": "s-07", "takenAt": "2026-03-02T08:00:00+01:00", "measurements": [ { "parameter": "ph", "value": {{value}}, "colour": "green" } ] }
            """);

        Assert.Equal(HttpStatusCode.Created, status);
        Assert.Equal(8.9m, Assert.Single(json.GetProperty("measurements").EnumerateArray().ToList()).GetProperty("value").GetDecimal());
    }

    [Theory, EachDatabase]
    public async Task Post_UnknownSump_Answers404(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);

        Assert.Equal(HttpStatusCode.NotFound, (await PostAsync(client, Body("4.1").Replace("S-07", "S-99", StringComparison.Ordinal))).Status);
    }

    [Theory, EachDatabase]
    public async Task Post_SumpStandsEmpty_Answers409(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database, isFilled: false);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);

        var (status, json) = await PostAsync(client, Body("4.1"));

        Assert.Equal(HttpStatusCode.Conflict, status);
        Assert.Equal("noOpenCharge", json.GetProperty("code").GetString());
    }

    [Theory]
    [InlineData("{ \"id\": ", HttpStatusCode.BadRequest)]
    [InlineData("[]", HttpStatusCode.BadRequest)]
    [InlineData("", HttpStatusCode.BadRequest)]
    public async Task Post_NoJsonObject_IsRefused(string body, HttpStatusCode expected)
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);

        Assert.Equal(expected, (await PostAsync(client, body)).Status);
    }

    [Fact]
    public async Task Post_BodyOver64Kilobytes_Answers413()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);

        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, (await PostAsync(client, Body("4.1", new string('n', 70_000)))).Status);
    }

    [Theory, EachDatabase]
    public async Task Post_TheSameIdFiftyTimesAtOnce_StoresOneReading(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var host = await TestHost.StartAsync(database);
        var client = await host.ClientOfAsync(Roles.Operator);

        var answers = await Task.WhenAll(Enumerable.Range(0, 50).Select(_ => PostAsync(client, Body("4.1"))));

        Assert.Single(answers, a => a.Status == HttpStatusCode.Created);
        Assert.Equal(49, answers.Count(a => a.Status == HttpStatusCode.OK));
        Assert.Equal(1, await shop.CountAsync<Core.Readings.Reading>());
    }

    private static string Body(string brix, string note = "") => $$"""
        { "id": "{{Id}}", "sump": "S-07", "takenAt": "2026-03-02T08:00:00+01:00", "note": "{{note}}", "measurements": [
          { "parameter": "concentration", "method": "refractometer", "value": {{brix}}, "unit": "Brix", "temperatureC": 20.0 },
          { "parameter": "ph", "value": 8.9 },
          { "parameter": "level", "value": 300, "unit": "mm" } ] }
        """;

    private static async Task<(HttpStatusCode Status, JsonElement Json)> PostAsync(HttpClient client, string body, string path = "/api/v1/readings")
    {
        var response = await client.PostAsync(path, new StringContent(body, Encoding.UTF8, "application/json"), TestContext.Current.CancellationToken);
        return (response.StatusCode, await response.Content.ReadFromJsonAsync<JsonElement>(TestContext.Current.CancellationToken));
    }
}
