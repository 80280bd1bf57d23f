using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record.Replay;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Readings;

/// <summary>Tablets without network post late, in any order and more than once: in the end every sump stands the same. Seeded histories.</summary>
public sealed class ArrivalOrderTests
{
    private const int Visits = 14;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory]
    [EachDatabase(1)]
    [EachDatabase(2)]
    [EachDatabase(3)]
    [EachDatabase(4)]
    [EachDatabase(5)]
    public async Task Record_AnyOrderAndTwice_LeavesTheSameFlagsStandingAndTasks(TestDatabase database, int seed)
    {
        await using var shop = await ShopFixture.OpenAsync(database, isFilled: false);
        var random = new Random(seed);
        var history = SeededHistory.Of(random, Visits);
        var orders = new List<IReadOnlyList<int>>
        {
            Enumerable.Range(0, Visits).ToList(),
            Enumerable.Range(0, Visits).Reverse().ToList(),
            Shuffled(random, twice: false),
            Shuffled(random, twice: true),
        };
        var sumps = new List<(string Tag, Guid Id)>();
        foreach (var n in Enumerable.Range(1, orders.Count))
        {
            sumps.Add(await SeededHistory.SumpAsync(shop, n));
        }

        shop.Clock.Advance(TimeSpan.FromDays(60));
        var states = new List<string>();
        foreach (var ((tag, id), order) in sumps.Zip(orders))
        {
            var ids = history.Select(_ => Some.Id()).ToList();
            foreach (var n in order)
            {
                var reading = history[n] with { Id = ids[n], SumpTag = tag };
                var preview = (await shop.Get<PreviewReadingQuery>().RunAsync(reading, Stop)).Done();
                var isFirst = !await shop.ReadAsync(db => db.Readings.AnyAsync(r => r.Id == reading.Id, Stop));
                var stored = await shop.StoreAsync(reading);
                Assert.True(!isFirst || Outcomes.ModuloIds(preview) == Outcomes.ModuloIds(stored), $"the preview of visit {n} at {tag} says something else");
            }

            states.Add(await SeededHistory.StateAsync(shop, id));
        }

        Assert.All(states, state => Assert.Equal(states[0], state));
        Assert.Contains("flag", states[0], StringComparison.Ordinal);
        Assert.Empty((await shop.VerifyAsync()).Findings);
        Assert.Empty((await shop.Get<ReplayQuery>().RunAsync(Stop)).Differences);
    }

    // 6.6 % is too low; 7.1 % is inside by less than the margin. Written down in the wrong order, the flag is found with the second save.
    [Theory, EachDatabase]
    public async Task Record_LowReadingAfterOneShortOfTheMargin_RaisesTheFlagWithItsWork(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        Assert.Empty((await shop.StoreAsync(Some.Reading(brix: 7.1m))).Raised);

        var late = await shop.StoreAsync(Some.Reading(brix: 6.6m, takenAt: Some.Start.AddHours(-3)));

        var raised = Assert.Single(late.Raised);
        Assert.Equal((ParameterCodes.Concentration, Direction.Low, 6.6m), (raised.Parameter, raised.Direction, raised.Numbers["value"]));
        Assert.Contains(late.Made, t => t is { Kind: TaskKind.Adjust, Cause: "limit:concentration" });
        Assert.Equal((1, 7.1m), await shop.ReadAsync(async db => (await db.Flags.CountAsync(f => f.EndedAtUtc == null), (await db.Standings.SingleAsync()).Facts?.Latest[ParameterCodes.Concentration].Value ?? 0)));
        Assert.Empty((await shop.VerifyAsync()).Findings);
        Assert.Empty((await shop.Get<ReplayQuery>().RunAsync(Stop)).Differences);
    }

    // What is measured first comes first: the verdict shown with a later pH is that of its own save.
    private static List<int> Shuffled(Random random, bool twice)
    {
        var rest = Enumerable.Range(1, Visits - 1).Concat(twice ? Enumerable.Range(1, Visits - 1) : []).ToArray();
        random.Shuffle(rest);
        return [0, .. rest];
    }
}
