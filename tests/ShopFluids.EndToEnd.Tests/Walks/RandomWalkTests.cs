using System.Collections.Concurrent;
using System.Globalization;
using ShopFluids.EndToEnd.Tests.Browser;
using ShopFluids.EndToEnd.Tests.Server;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.EndToEnd.Tests.Walks;

/// <summary>
/// Nothing typed is ever lost and nothing saved is stored twice, whatever happens in whatever order: walks that are each drawn from a seed.
/// A walk takes seconds of two slow cores, so that every run of all tests walks the first of them; SHOPFLUIDS_WALKS=500 walks as many as it
/// says, SHOPFLUIDS_WALK_SEED one alone.
/// </summary>
public sealed class RandomWalkTests(Chromium chromium)
{
    private const int UsualWalks = 12;

    // In each fiftieth the server itself is killed on the way and started again.
    private const int KillEvery = 50;

    private static readonly string[] Sumps = [Some.SumpTag, "S-31", "S-32"];

    [Fact]
    public async Task Walk_WhateverHappensInWhateverOrder_EachReadingIsInOnePlaceAndArrivesOnce()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseEngine.Sqlite);
        await using var shop = await SmallShop.OpenAsync(database, SetUpAsync);
        var seeds = Setting("SHOPFLUIDS_WALK_SEED") is { } one ? [one] : Enumerable.Range(1, Setting("SHOPFLUIDS_WALKS") ?? UsualWalks).ToList();
        var tablets = new List<WalkTablet>();
        try
        {
            foreach (var sump in Sumps.Take(seeds.Count))
            {
                tablets.Add(await WalkTablet.OpenAsync(chromium, shop, sump));
            }

            await WalkAsync(tablets, seeds.Where(s => !KillsServer(s)), s => WalkPlan.Of(s), database, killsServer: false);
            await WalkAsync(tablets.Take(1), seeds.Where(KillsServer), s => WalkPlan.Of(s).WithoutServer(), database, killsServer: true);
        }
        finally
        {
            foreach (var tablet in tablets)
            {
                await tablet.DisposeAsync();
            }
        }

        var (exitCode, output) = await shop.VerifyAsync();
        Assert.True(exitCode == 0, output);
    }

    // Several tablets at once; the first walk that fails ends all.
    private static async Task WalkAsync(IEnumerable<WalkTablet> tablets, IEnumerable<int> seeds, Func<int, WalkPlan> plan, TestDatabase database, bool killsServer)
    {
        var left = new ConcurrentQueue<int>(seeds);
        using var end = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        await Task.WhenAll(tablets.Select(async tablet =>
        {
            try
            {
                while (left.TryDequeue(out var seed))
                {
                    await tablet.WalkAsync(plan(seed), database, killsServer, end.Token);
                }
            }
            catch
            {
                await end.CancelAsync();
                throw;
            }
        }));
    }

    private static bool KillsServer(int seed) => seed % KillEvery == 0;

    private static int? Setting(string name) =>
        Environment.GetEnvironmentVariable(name) is { Length: > 0 } given ? int.Parse(given, CultureInfo.InvariantCulture) : null;

    private static async Task SetUpAsync(ShopFixture shop)
    {
        await StationPeople.AddAsync(shop);
        foreach (var sump in Sumps.Skip(1))
        {
            await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, sump, $"M{sump[1..]}"));
            (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, sump))).Done();
        }
    }
}
