using ShopFluids.Core.Readings;
using ShopFluids.Core.Record.Replay;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Readings;

/// <summary>A reading written down wrong and corrected later leaves open what the right one would have left. Seeded histories.</summary>
public sealed class CorrectionOrderTests
{
    private const int Visits = 10;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory]
    [EachDatabase(1)]
    [EachDatabase(2)]
    [EachDatabase(3)]
    [EachDatabase(4)]
    public async Task Record_WrongThenCorrected_LeavesTheSameFlagsStandingAndTasks(TestDatabase database, int seed)
    {
        await using var shop = await ShopFixture.OpenAsync(database, isFilled: false);
        var random = new Random(seed);
        var (history, others) = (SeededHistory.Of(random, Visits), SeededHistory.Of(random, Visits));
        var states = new List<string>();
        shop.Clock.Advance(TimeSpan.FromDays(60));
        for (var n = 0; n < 4; n++)
        {
            var (tag, id) = await SeededHistory.SumpAsync(shop, n + 1);

            // The first sump gets it right; the others get one wrong, each another, and notice it sooner or later.
            var slip = n == 0 ? -1 : random.Next(1, Visits);
            await WriteDownAsync(shop, tag, history, slip, others, noticedAfter: n == 0 ? Visits : random.Next(slip, Visits));
            states.Add(await SeededHistory.StateAsync(shop, id, withDueDays: false));
        }

        Assert.All(states, state => Assert.Equal(states[0], state));
        Assert.Contains("flag", states[0], StringComparison.Ordinal);
        Assert.Empty((await shop.VerifyAsync()).Findings);
        Assert.Empty((await shop.Get<ReplayQuery>().RunAsync(Stop)).Differences);
    }

    private static async Task WriteDownAsync(ShopFixture shop, string tag, List<RecordReading> history, int slip, List<RecordReading> others, int noticedAfter)
    {
        var wrongId = Some.Id();
        for (var n = 0; n < history.Count; n++)
        {
            var right = history[n] with { Id = Some.Id(), SumpTag = tag };
            await shop.StoreAsync(n == slip ? right with { Id = wrongId, Measurements = others[n].Measurements } : right);
            if (n == noticedAfter)
            {
                var correction = history[slip] with { Id = Some.Id(), SumpTag = tag, SupersedesId = wrongId, CorrectionReason = "Another sump's" };
                var preview = (await shop.Get<PreviewReadingQuery>().RunAsync(correction, Stop)).Done();
                Assert.Equal(Outcomes.ModuloIds(preview), Outcomes.ModuloIds(await shop.StoreAsync(correction)));
            }
        }
    }
}
