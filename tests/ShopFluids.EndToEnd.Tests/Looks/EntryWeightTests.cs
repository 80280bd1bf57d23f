using System.Collections.Concurrent;
using System.Globalization;
using Microsoft.Playwright;
using ShopFluids.Core.Wording;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Server;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Looks;

/// <summary>Poor Wi-Fi: the entry page opened for the first time brings little.</summary>
[Collection(SqliteDemoTests.Name)]
public sealed class EntryWeightTests(SqliteDemo demo, Chromium chromium)
{
    private const int MostBytes = 60 * 1024;
    private const int MostRequests = 4;

    [Fact]
    public async Task Entry_OpenedForTheFirstTime_WeighsAtMostSixtyKilobytesBesidesFontsAndAsksFourTimesBeforeTheForm()
    {
        await using var visit = await demo.VisitAsync(chromium, Texts.Role_Operator);
        var finished = new ConcurrentQueue<IRequest>();
        visit.Page.RequestFinished += (_, request) => finished.Enqueue(request);
        await visit.GoAsync("/enter/S-07");

        // What goes over the air: style and script are sent compressed.
        var parts = new List<(string Url, long Bytes)>();
        foreach (var request in finished.Where(r => r.ResourceType is "document" or "stylesheet" or "script"))
        {
            var response = await request.ResponseAsync() ?? throw new InvalidOperationException($"{request.Url} was not answered.");
            Assert.Equal(200, response.Status);
            parts.Add((request.Url, (await request.SizesAsync()).ResponseBodySize));
        }

        Assert.Contains(parts, p => p.Url.Contains("shop", StringComparison.Ordinal) && p.Url.EndsWith(".css", StringComparison.Ordinal));
        Assert.Contains(parts, p => p.Url.Contains("shop", StringComparison.Ordinal) && p.Url.EndsWith(".js", StringComparison.Ordinal));
        // The form stands there and works without its script, which comes after.
        Assert.InRange(parts.Count(p => !p.Url.EndsWith(".js", StringComparison.Ordinal)), 2, MostRequests);
        var sum = parts.Sum(p => p.Bytes);
        Assert.True(sum <= MostBytes, $"{sum} bytes: {string.Join(", ", parts.Select(p => string.Create(CultureInfo.InvariantCulture, $"{p.Url} {p.Bytes}")))}");
    }
}
