using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using ShopFluids.Core.Database;
using ShopFluids.Core.DemoData;
using ShopFluids.Core.DemoData.Generated;
using ShopFluids.Core.Record.Sealing;

namespace ShopFluids.Benchmarks;

/// <summary>A generated shop to measure with; its size is set by SHOPFLUIDS_BENCH_SUMPS and SHOPFLUIDS_BENCH_YEARS.</summary>
internal static class GeneratedBench
{
    private const int Seed = 1;

    public static int Sumps => Setting("SHOPFLUIDS_BENCH_SUMPS", 300);

    public static int Years => Setting("SHOPFLUIDS_BENCH_YEARS", 2);

    /// <returns>The first person who may sign in.</returns>
    public static async Task<DemoSignIn> MakeAsync(IDatabaseProvider provider, string connectionString, TimeProvider time, int sumps, int years)
    {
        var options = new DbContextOptionsBuilder<ShopFluidsDbContext>();
        provider.Configure(options, connectionString);
        var contexts = new PooledDbContextFactory<ShopFluidsDbContext>(options.Options);
        await using (var db = await contexts.CreateDbContextAsync())
        {
            await db.Database.MigrateAsync();
        }

        var done = await new GeneratedShop(contexts, provider, new RecordSealer(), time)
            .LoadAsync(Path.Combine(AppContext.BaseDirectory, "demo-seed"), new ShopSize(sumps, years, Seed), new Progress<DemoProgress>(), default);
        await using var connection = ManySumps.Connect(provider.Name == "postgres", connectionString);
        await connection.OpenAsync();
        await using var analyze = connection.CreateCommand();
        analyze.CommandText = "ANALYZE";
        await analyze.ExecuteNonQueryAsync();
        return done.Value?.SignIns[0] ?? throw new InvalidOperationException("The database was not empty.");
    }

    private static int Setting(string name, int usual) =>
        Environment.GetEnvironmentVariable(name) is { Length: > 0 } text ? int.Parse(text, CultureInfo.InvariantCulture) : usual;
}
