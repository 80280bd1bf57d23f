using System.Globalization;
using ShopFluids.Benchmarks;
using ShopFluids.Core.Database;
using ShopFluids.Data.Postgres;
using ShopFluids.Data.Sqlite;

// The most that storing a reading through HTTP may cost, as a multiple of one raw insert and commit.
const double Target = 3;

var time = new WallClock();
var folder = Directory.CreateTempSubdirectory("shopfluids-bench-").FullName;
try
{
    var missed = false;
    Console.WriteLine("name\tours_ms\tfloor_ms\tratio\ttarget");
    var sqlite = $"Data Source={Path.Combine(folder, "shop.db")}";
    missed |= await MeasureAsync("store-reading-sqlite", new SqliteProvider(), sqlite, await Floor.SqliteAsync(folder));

    var server = Environment.GetEnvironmentVariable("SHOPFLUIDS_TEST_POSTGRES_CONNECTION")
        ?? throw new InvalidOperationException("SHOPFLUIDS_TEST_POSTGRES_CONNECTION is not set; deploy/dev/bench.sh starts a server and sets it.");
    var postgres = await BenchDatabase.CreateAsync(server);
    missed |= await MeasureAsync("store-reading-postgres", new PostgresProvider(), postgres, await Floor.PostgresAsync(postgres));
    return missed ? 1 : 0;
}
finally
{
    Directory.Delete(folder, recursive: true);
}

async Task<bool> MeasureAsync(string name, IDatabaseProvider provider, string connectionString, Floor floor)
{
    await using (floor)
    {
        var token = await BenchShop.MakeAsync(provider, connectionString, time);
        await using var server = await BenchServer.StartAsync(folder, provider.Name, connectionString);
        var (ours, least) = await new StoreReading(server.Address, token, floor, time).RunAsync();
        var ratio = ours / least;
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name}\t{ours:0.000}\t{least:0.000}\t{ratio:0.00}\t{Target:0.00}"));
        return ratio > Target;
    }
}
