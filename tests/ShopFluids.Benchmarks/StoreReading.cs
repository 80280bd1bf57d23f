using System.Diagnostics;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;

namespace ShopFluids.Benchmarks;

/// <summary>Stores readings through HTTP, one at a time, each beside one raw insert, so that a drift of the machine's speed touches both alike.</summary>
internal sealed class StoreReading(Uri server, string token, Floor floor, TimeProvider time)
{
    // Enough for the server's code to be compiled for good, which takes it some ten seconds; a shop's server is warm.
    private const int WarmUp = 6000;
    private const int Counted = 1000;

    /// <summary>So many that each has a year of weekly readings at the end: what the rules look back at is part of what a reading costs.</summary>
    public const int Sumps = (WarmUp + Counted) / 52;

    /// <returns>Median milliseconds, ours and the floor's.</returns>
    public async Task<(double Ours, double Floor)> RunAsync()
    {
        using var client = new HttpClient { BaseAddress = server };
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", token);
        var (ours, floors) = (new List<double>(Counted), new List<double>(Counted));
        for (var i = 0; i < WarmUp + Counted; i++)
        {
            var request = Reading(i);
            var started = Stopwatch.GetTimestamp();
            using var response = await client.PostAsJsonAsync("/api/v1/readings", request);
            await response.Content.ReadAsByteArrayAsync();
            var our = Stopwatch.GetElapsedTime(started);
            if (response.StatusCode != HttpStatusCode.Created)
            {
                throw new InvalidOperationException($"{response.StatusCode}: {await response.Content.ReadAsStringAsync()}");
            }

            started = Stopwatch.GetTimestamp();
            await floor.InsertAsync(i);
            var least = Stopwatch.GetElapsedTime(started);
            if (i >= WarmUp)
            {
                ours.Add(our.TotalMilliseconds);
                floors.Add(least.TotalMilliseconds);
            }
        }

        return (Median(ours), Median(floors));
    }

    // Values that wander inside and now and then outside the limits, so that flags and tasks come and go as in a shop.
    private object Reading(int number) => InWeek(number / Sumps, BenchShop.TagOf(number % Sumps), time);

    /// <summary>The body of a reading of one of the weeks since the fill.</summary>
    public static object InWeek(int week, string sump, TimeProvider time) => At(time.GetUtcNow().AddDays((7 * (1 + week)) - BenchShop.DaysOfCharge), week, sump, time);

    /// <summary>The same as it was taken just now.</summary>
    public static object Now(int number, string sump, TimeProvider time) => At(time.GetUtcNow(), number, sump, time);

    private static object At(DateTimeOffset takenAt, int week, string sump, TimeProvider time) => new
    {
        id = Guid.CreateVersion7(time.GetUtcNow()),
        sump,
        takenAt,
        note = "",
        measurements = new object[]
        {
            new { parameter = "concentration", method = "refractometer", value = (50 + (week % 13)) / 10m, unit = "Brix", temperatureC = 20 + (week % 7) },
            new { parameter = "ph", value = (88 + (week % 6)) / 10m },
            new { parameter = "level", value = 260 + (week * 17 % 80), unit = "mm" },
        },
    };

    private static double Median(List<double> values)
    {
        values.Sort();
        return values[values.Count / 2];
    }
}
