using FsCheck.Xunit;
using ShopFluids.Calculations.Upkeep;
using Xunit;

namespace ShopFluids.Calculations.Tests.Upkeep;

public sealed class AdaptiveIntervalTests
{
    private static readonly IntervalBounds Bounds = new(2, 30);

    // The worked example of docs/calculations/upkeep.md: wanted 1 L in the skimmer, found 2 L after 14 days.
    [Theory]
    [InlineData(14, 1, 2, 10.5)]
    [InlineData(14, 1, 1, 14)]
    [InlineData(14, 1, 0.7, 17)]
    [InlineData(14, 1, 0, 22)]
    [InlineData(14, 1, 0.1, 22)]
    [InlineData(14, 1, 100, 8)]
    [InlineData(100, 1, 1, 30)]
    [InlineData(1, 1, 1, 2)]
    public void NextDays_HalfDamped_GoesHalfTheWay(double last, double wanted, double found, double expected) =>
        Assert.Equal(expected, AdaptiveInterval.NextDays(last, wanted, found, Bounds), 9);

    [Fact]
    public void NextDays_DampingZeroOrOne_StaysOrJumps()
    {
        Assert.Equal(14, AdaptiveInterval.NextDays(14, 1, 2, new IntervalBounds(2, 30, 0)), 9);
        Assert.Equal(7, AdaptiveInterval.NextDays(14, 1, 2, new IntervalBounds(2, 30, 1)), 9);
        Assert.Equal(0.5, Bounds.Damping);
    }

    [Property(MaxTest = 100_000, Replay = "20260101,20260103")]
    public void NextDays_AnyFinding_StaysWithinBoundsAndMovesTheRightWay(ushort last, ushort wanted, ushort found, byte damping)
    {
        var bounds = new IntervalBounds(2, 30, damping / 255.0);
        var (days, want, got) = (2 + (28.0 * last / ushort.MaxValue), 1 + (wanted / 100.0), found / 100.0);
        var next = AdaptiveInterval.NextDays(days, want, got, bounds);
        Assert.InRange(next, 2, 30);
        Assert.True(got > want ? next <= days + 1e-9 : next >= days - 1e-9);
    }

    [Fact]
    public void Inputs_OutOfRange_AreRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("FloorDays", () => new IntervalBounds(0, 1));
        Assert.Throws<ArgumentOutOfRangeException>("CeilingDays", () => new IntervalBounds(2, 1.9));
        Assert.Throws<ArgumentOutOfRangeException>("CeilingDays", () => new IntervalBounds(2, 10_001));
        Assert.Throws<ArgumentOutOfRangeException>("Damping", () => new IntervalBounds(2, 3, 1.1));
        Assert.Throws<ArgumentOutOfRangeException>("lastDays", () => AdaptiveInterval.NextDays(0, 1, 1, Bounds));
        Assert.Throws<ArgumentOutOfRangeException>("lastDays", () => AdaptiveInterval.NextDays(10_001, 1, 1, Bounds));
        Assert.Throws<ArgumentOutOfRangeException>("wanted", () => AdaptiveInterval.NextDays(1, 0, 1, Bounds));
        Assert.Throws<ArgumentOutOfRangeException>("wanted", () => AdaptiveInterval.NextDays(1, 1.1e9, 1, Bounds));
        Assert.Throws<ArgumentOutOfRangeException>("found", () => AdaptiveInterval.NextDays(1, 1, -1, Bounds));
        Assert.Throws<ArgumentOutOfRangeException>("found", () => AdaptiveInterval.NextDays(1, 1, 1.1e9, Bounds));
        Assert.Throws<ArgumentNullException>("bounds", () => AdaptiveInterval.NextDays(1, 1, 1, null!));
    }
}
