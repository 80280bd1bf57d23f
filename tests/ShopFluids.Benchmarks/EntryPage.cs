using System.Diagnostics;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;

namespace ShopFluids.Benchmarks;

/// <summary>Opens the entry page of a sump with a year of readings, signed in as an operator, each time beside its floor.</summary>
internal sealed class EntryPage(Uri server, string token, TimeProvider time)
{
    // Enough for the server's code to be compiled for good; a shop's server is warm.
    private const int WarmUp = 3000;
    private const int Counted = 1000;
    private const int Weeks = 52;

    // Each of these is a reading stored, and the server is warm by then.
    private const int CountedAfterReading = 300;

    // Nobody is before the machine sooner: the page is on its way back to the tablet that saved, or is asked for by another.
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(50);

    private static readonly Uri Page = new($"/enter/{BenchShop.Sump}", UriKind.Relative);

    // As another instance does it, and at once: what was kept of the page is of no use, and nobody had the time to draw it ahead.
    private const string Read = """UPDATE "Standings" SET "Version" = "Version" + 1""";

    /// <returns>Median milliseconds: of the page where nothing was recorded about its sump since it was last asked for, after a reading was stored, where it has to be drawn first, and the floors beside them.</returns>
    public async Task<EntryPageMeasures> RunAsync(string folder, string engine, string connectionString)
    {
        using var client = new HttpClient { BaseAddress = server };
        await ReadForAYearAsync();
        await DeskSignIn.SignInAsync(client, BenchShop.SignInName, BenchShop.Password);
        var file = Path.Combine(folder, $"entry-{engine}.html");
        await File.WriteAllTextAsync(file, await BodyAsync(client));
        await using var floor = await EntryFloor.StartAsync(engine, connectionString, file);
        using var least = new HttpClient { BaseAddress = floor.Address };
        await using var connection = ManySumps.Connect(engine == "postgres", connectionString);
        await connection.OpenAsync();
        await using var read = connection.CreateCommand();
        read.CommandText = Read;
        using var program = Program();
        return new(
            await BesideAsync(WarmUp, Counted, _ => Task.CompletedTask, TimeSpan.Zero),
            await BesideAsync(CountedAfterReading, CountedAfterReading, number => StoreAsync(program, StoreReading.Now(number, BenchShop.Sump, time)), Pause),
            await BesideAsync(WarmUp, Counted, _ => read.ExecuteNonQueryAsync(), TimeSpan.Zero));

        // A pause is made before both: a machine that wakes up is slower.
        async Task<(double Ours, double Floor)> BesideAsync(int warmUp, int counted, Func<int, Task> before, TimeSpan pause)
        {
            var (ours, floors) = (new List<double>(counted), new List<double>(counted));
            for (var i = 0; i < warmUp + counted; i++)
            {
                await before(i);
                await Task.Delay(pause);
                var our = await TimeAsync(client);
                await Task.Delay(pause);
                var bare = await TimeAsync(least);
                if (i >= warmUp)
                {
                    ours.Add(our);
                    floors.Add(bare);
                }
            }

            return (Median(ours), Median(floors));
        }
    }

    private static async Task<double> TimeAsync(HttpClient client)
    {
        var started = Stopwatch.GetTimestamp();
        await BodyAsync(client);
        return Stopwatch.GetElapsedTime(started).TotalMilliseconds;
    }

    private static async Task<string> BodyAsync(HttpClient client)
    {
        using var response = await client.GetAsync(Page);
        var body = await response.Content.ReadAsStringAsync();
        return response.StatusCode == HttpStatusCode.OK && body.Contains("id=\"entry\"", StringComparison.Ordinal)
            ? body
            : throw new InvalidOperationException($"{response.StatusCode}: this is not the entry page of {BenchShop.Sump}.");
    }

    private async Task ReadForAYearAsync()
    {
        using var program = Program();
        for (var week = 0; week < Weeks; week++)
        {
            await StoreAsync(program, StoreReading.InWeek(week, BenchShop.Sump, time));
        }
    }

    private static async Task StoreAsync(HttpClient program, object reading)
    {
        using var stored = await program.PostAsJsonAsync("/api/v1/readings", reading);
        stored.EnsureSuccessStatusCode();
    }

    private HttpClient Program()
    {
        var program = new HttpClient { BaseAddress = server };
        program.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", token);
        return program;
    }

    private static double Median(List<double> values)
    {
        values.Sort();
        return values[values.Count / 2];
    }
}

internal sealed record EntryPageMeasures((double Ours, double Floor) AsItWas, (double Ours, double Floor) AfterReading, (double Ours, double Floor) DrawnFirst);
