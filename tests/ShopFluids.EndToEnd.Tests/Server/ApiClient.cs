using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace ShopFluids.EndToEnd.Tests.Server;

internal sealed record ApiAnswer(HttpStatusCode Status, string Body)
{
    public JsonNode Json => JsonNode.Parse(Body) ?? throw new InvalidOperationException("The answer is empty.");
}

/// <summary>The HTTP API as a script at the other end of the network uses it.</summary>
internal sealed class ApiClient : IDisposable
{
    private readonly HttpClient _client;

    public ApiClient(Uri address, string token)
    {
        _client = new HttpClient { BaseAddress = address };
        _client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", token);
    }

    /// <summary>The server's own clock, which readings are held against.</summary>
    public async Task<DateTimeOffset> NowAsync()
    {
        using var answer = await _client.GetAsync(new Uri("/health/live", UriKind.Relative));
        return answer.Headers.Date ?? throw new InvalidOperationException("The server sends no date.");
    }

    public Task<ApiAnswer> PostReadingAsync(JsonObject reading) => PostAsync("/api/v1/readings", reading);

    public async Task<ApiAnswer> PostAsync(string path, JsonObject body)
    {
        using var content = new StringContent(body.ToJsonString(), Encoding.UTF8, "application/json");
        using var answer = await _client.PostAsync(new Uri(path, UriKind.Relative), content);
        return new ApiAnswer(answer.StatusCode, await answer.Content.ReadAsStringAsync());
    }

    public Task<JsonElement> GetAsync(string path) => _client.GetFromJsonAsync<JsonElement>(new Uri(path, UriKind.Relative));

    /// <summary>Every item of a list, over all its pages.</summary>
    public async Task<List<JsonElement>> AllAsync(string path)
    {
        var items = new List<JsonElement>();
        string? cursor = null;
        do
        {
            var separator = path.Contains('?', StringComparison.Ordinal) ? '&' : '?';
            var address = cursor is null ? path : $"{path}{separator}cursor={Uri.EscapeDataString(cursor)}";
            var page = await _client.GetFromJsonAsync<JsonElement>(new Uri(address, UriKind.Relative));
            items.AddRange(page.GetProperty("items").EnumerateArray());
            cursor = page.GetProperty("next").GetString();
        }
        while (cursor is not null);
        return items;
    }

    /// <summary>A reading as the documentation shows it.</summary>
    public static JsonObject Reading(Guid id, string sump, DateTimeOffset takenAt, decimal brix = 8.0m, decimal ph = 9.0m, decimal levelMm = 300) => new()
    {
        ["id"] = id,
        ["sump"] = sump,
        ["takenAt"] = takenAt.ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture),
        ["note"] = "",
        ["measurements"] = new JsonArray(
            new JsonObject { ["parameter"] = "concentration", ["method"] = "refractometer", ["value"] = brix, ["unit"] = "Brix", ["temperatureC"] = 24.0 },
            new JsonObject { ["parameter"] = "ph", ["value"] = ph },
            new JsonObject { ["parameter"] = "level", ["value"] = levelMm, ["unit"] = "mm" }),
    };

    public void Dispose() => _client.Dispose();
}
