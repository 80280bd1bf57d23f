using ShopFluids.Rules.LateArrival;

namespace ShopFluids.Rules.Tests.LateArrival;

public sealed class TestSeriesTests
{
    // From the first task since the last one that somebody ended otherwise; a series of which that is the last has none. In the order of the causes.
    [Theory]
    [InlineData("b1:ByReading b2:Otherwise b3:ByReading b4:Open", "b3")]
    [InlineData("b4:Open b1:ByReading b3:ByReading b2:Otherwise", "b3")]
    [InlineData("b1:ByReading b2:ByReading b3:Open", "b1")]
    [InlineData("b1:ByReading b2:Otherwise", "")]
    [InlineData("c1:Open b1:Otherwise a1:ByReading b2:Open", "a1 b2 c1")]
    [InlineData("", "")]
    public void Firsts_OfSeveralSeries_AreThoseAfterTheLastOtherEnd(string items, string firsts)
    {
        var series = items.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(i => i.Split(':')).Select(i => new TestItem(
            Some.Task(TaskKind.Test, $"step:{i[0][0]}", Some.Now.AddDays(i[0][1] - '0'), (100 * i[0][0]) + i[0][1]),
            Enum.Parse<TestEnd>(i[1])));

        Assert.Equal(firsts, string.Join(' ', TestSeries.Firsts(series).Select(t => $"{t.Cause[^1]}{(t.DueAt - Some.Now).Days}")));
    }
}
