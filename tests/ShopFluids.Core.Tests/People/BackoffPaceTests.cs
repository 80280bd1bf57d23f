using ShopFluids.Core.People.Pins;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.People;

/// <summary>The count of wrong tries by itself, against attackers who know it.</summary>
public sealed class BackoffPaceTests
{
    private const int MostInAnHour = 30;

    [Theory]
    [InlineData(9, 0)]
    [InlineData(10, 30)]
    [InlineData(11, 60)]
    [InlineData(14, 480)]
    [InlineData(15, 900)]
    [InlineData(1_000, 900)]
    public void WaitAfter_AtADevice_GrowsAndEnds(int wrong, int seconds) =>
        Assert.Equal(TimeSpan.FromSeconds(seconds), BackoffPace.Device.WaitAfter(wrong));

    [Theory]
    [InlineData(5, 10)]
    [InlineData(6, 9)]
    [InlineData(59, 1)]
    [InlineData(60, 0)]
    [InlineData(10_000, 0)]
    [InlineData(-60, 10)]
    public void Remembered_AfterQuietMinutes_FallsByOneEachSix(int minutes, int remembered) =>
        Assert.Equal(remembered, BackoffPace.Device.Remembered(10, Some.Start, Some.Start.AddMinutes(minutes)));

    // Some wait for the first moment, some save tries up, some come and go: none gets more than thirty looked at in any hour.
    [Fact]
    public void Count_AnyAttacker_GetsAtMostThirtyAnHour()
    {
        var chance = new Random(20260302);
        for (var attacker = 0; attacker < 400; attacker++)
        {
            var eagerness = chance.NextDouble();
            var row = new PinBackoff("d", Some.Start);
            var tries = new Queue<DateTime>();
            var most = 0;
            for (var now = Some.Start; now < Some.Start.AddHours(30);)
            {
                now = row.NextAt(BackoffPace.Device, now) > now ? row.NextAt(BackoffPace.Device, now) : now;
                row.Count(BackoffPace.Device, now);
                tries.Enqueue(now);
                while (tries.Peek() <= now.AddHours(-1))
                {
                    tries.Dequeue();
                }

                most = Math.Max(most, tries.Count);
                now = attacker > 0 && chance.NextDouble() > eagerness ? now.AddMinutes(chance.Next(1, 91)) : now;
            }

            Assert.InRange(most, 1, MostInAnHour);
        }
    }
}
