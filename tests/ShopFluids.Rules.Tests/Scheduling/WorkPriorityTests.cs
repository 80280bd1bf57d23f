using FsCheck.Xunit;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Tests.Scheduling;

public sealed class WorkPriorityTests
{
    private static readonly WorkPriority Usual = new(HasActionFlag: false, 1, 100, 40);

    // Each key goes before all that follow, however much the others say otherwise.
    [Fact]
    public void MostUrgentFirst_OneKeyEach_OrdersByFlagThenLatenessThenCostThenHours()
    {
        WorkPriority[] expected =
        [
            new(HasActionFlag: true, 0, 0, 0),
            new(HasActionFlag: false, 5, 0, 0),
            new(HasActionFlag: false, 4, 900, 168),
            new(HasActionFlag: false, 4, 900, 80),
            new(HasActionFlag: false, 4, 899.99m, 168),
            new(HasActionFlag: false, 0, 5000, 168),
        ];

        Assert.Equal(expected, expected.Reverse().Order(WorkPriority.MostUrgentFirst));
    }

    [Fact]
    public void MostUrgentFirst_Alike_LeavesThemInTheirOrder() => Assert.Equal(0, WorkPriority.MostUrgentFirst.Compare(Usual, Usual with { }));

    [Property(Replay = "20260304,20261127")]
    public void MostUrgentFirst_AnyTwo_IsTheOtherWayRoundWhenSwapped(bool flagA, bool flagB, byte lateA, byte lateB, byte costA, byte costB, byte hoursA, byte hoursB)
    {
        var (a, b) = (Made(flagA, lateA, costA, hoursA), Made(flagB, lateB, costB, hoursB));

        Assert.Equal(Math.Sign(WorkPriority.MostUrgentFirst.Compare(a, b)), -Math.Sign(WorkPriority.MostUrgentFirst.Compare(b, a)));
        Assert.Equal(a == b, WorkPriority.MostUrgentFirst.Compare(a, b) == 0);
    }

    [Property(Replay = "20260304,20261127", MaxTest = 500)]
    public void MostUrgentFirst_AnyThree_IsTransitive(bool[] flags, byte[] numbers)
    {
        var all = numbers.Chunk(3).Where(n => n.Length == 3).Select((n, i) => Made(flags.Length > 0 && flags[i % flags.Length], n[0], n[1], n[2])).Order(WorkPriority.MostUrgentFirst).ToList();

        Assert.All(all.Zip(all.Skip(1)), pair => Assert.True(WorkPriority.MostUrgentFirst.Compare(pair.First, pair.Second) <= 0));
        Assert.True(all.Count == 0 || WorkPriority.MostUrgentFirst.Compare(all[0], all[^1]) <= 0);
    }

    // In quarters of the interval that have begun: a week's test a day late is in its first, a day's test in its fifth.
    [Theory]
    [InlineData(7, -1, 0)]
    [InlineData(7, 0, 1)]
    [InlineData(7, 24, 1)]
    [InlineData(7, 41.9, 1)]
    [InlineData(7, 42, 2)]
    [InlineData(7, 168, 5)]
    [InlineData(1, 24, 5)]
    [InlineData(365, 24, 1)]
    [InlineData(1, 1e9, 100_001)]
    public void QuartersLate_OfAStep_CountsByItsInterval(int intervalDays, double hoursLate, int expected) =>
        Assert.Equal(expected, WorkPriority.QuartersLate(Some.Now, Some.Step(intervalDays: intervalDays), Some.Now.AddSeconds(Math.Round(Math.Min(hoursLate, 3e7) * 3600))));

    [Theory]
    [InlineData(0, 1)]
    [InlineData(5.9, 1)]
    [InlineData(6, 2)]
    [InlineData(24, 5)]
    public void QuartersLate_OfAFlag_CountsByTheDay(double hoursLate, int expected) =>
        Assert.Equal(expected, WorkPriority.QuartersLate(Some.Now, null, Some.Now.AddHours(hoursLate)));

    // A quarter of a month of 30.4 days.
    [Theory]
    [InlineData(7.6, 1)]
    [InlineData(7.61, 2)]
    public void QuartersLate_OfMonths_CountsByTheUsualMonth(double daysLate, int expected) =>
        Assert.Equal(expected, WorkPriority.QuartersLate(Some.Now, Some.Step() with { IntervalMonths = 1 }, Some.Now.AddDays(daysLate)));

    private static WorkPriority Made(bool hasFlag, int late, int cost, int hours) => new(hasFlag, late % 3, cost % 3, hours % 3);
}
