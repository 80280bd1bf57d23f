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

    private static readonly Uri Page = new($"/enter/{BenchShop.Sump}", UriKind.Relative);

    // As far as the page can tell, the sump was read: what was kept of the page is of no use.
    private const string Read = """UPDATE "Standings" SET "Version" = "Version" + 1""";

    /// <returns>Median milliseconds: of the page where nothing was recorded about its sump since it was last asked for, where something was, and the floors beside them.</returns>
    public async Task<((double Ours, double Floor) AsItWas, (double Ours, double Floor) DrawnAnew)> RunAsync(string folder, string engine, string connectionString)
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
        return (await BesideAsync(() => Task.CompletedTask), await BesideAsync(read.ExecuteNonQueryAsync));

        async Task<(double Ours, double Floor)> BesideAsync(Func<Task> before)
        {
            var (ours, floors) = (new List<double>(Counted), new List<double>(Counted));
            for (var i = 0; i < WarmUp + Counted; i++)
            {
                await before();
                var (our, bare) = (await TimeAsync(client), await TimeAsync(least));
                if (i >= WarmUp)
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
        using var program = new HttpClient { BaseAddress = server };
        program.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", token);
        for (var week = 0; week < Weeks; week++)
        {
            using var stored = await program.PostAsJsonAsync("/api/v1/readings", StoreReading.InWeek(week, BenchShop.Sump, time));
            stored.EnsureSuccessStatusCode();
        }
    }

    private static double Median(List<double> values)
    {
        values.Sort();
        return values[values.Count / 2];
    }
}
