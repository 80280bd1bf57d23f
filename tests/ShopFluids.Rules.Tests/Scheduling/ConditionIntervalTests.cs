using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Tests.Scheduling;

/// <summary>The interval follows what was found, damped by half, between floor and ceiling.</summary>
[Properties(Arbitrary = [typeof(FindHistories)], MaxTest = 500, Replay = "20260304,20261125")]
public sealed class ConditionIntervalTests
{
    private static readonly ConditionInterval Skim = new(2, 30, 1);

    // docs/calculations/upkeep.md: 1 L wanted, 2 L found after 14 days aims at 7 and goes half the way.
    [Theory]
    [InlineData(14.0, 14, 2.0, 10.5)]
    [InlineData(14.0, 14, 1.0, 14.0)]
    [InlineData(14.0, 14, 0.0, 22.0)]
    [InlineData(14.0, null, 2.0, 10.5)]
    [InlineData(14.0, 28, 2.0, 14.0)]
    [InlineData(14.0, 7, 1.0, 10.5)]
    [InlineData(14.0, 14, null, 14.0)]
    [InlineData(14.0, 0, 1.0, 8.0)]
    [InlineData(2.0, 2, 50.0, 2.0)]
    [InlineData(30.0, 30, 0.0, 30.0)]
    [InlineData(90.0, 14, null, 30.0)]
    [InlineData(1.0, 14, null, 2.0)]
    public void NextDays_AfterAFind_GoesHalfTheWay(double planned, int? elapsed, double? found, double next) =>
        Assert.Equal((decimal)next, Skim.NextDays((decimal)planned, elapsed, (decimal?)found));

    [Theory]
    [InlineData(10.4, 10)]
    [InlineData(10.5, 11)]
    public void WholeDays_HalfADay_IsRoundedUp(double days, int whole) => Assert.Equal(whole, ConditionInterval.WholeDays((decimal)days));

    [Property]
    public void NextDays_AnyFinds_StayWithinFloorAndCeiling(FindHistory history)
    {
        var planned = history.First;
        foreach (var (elapsed, found) in history.Finds)
        {
            planned = history.Step.NextDays(planned, elapsed, found);
            Assert.InRange(planned, history.Step.FloorDays, history.Step.CeilingDays);
            Assert.InRange(ConditionInterval.WholeDays(planned), history.Step.FloorDays, history.Step.CeilingDays);
        }
    }

    // A sump that gathers oil at a steady pace, skimmed on the day, early or late: the interval settles where each time finds what is wanted.
    [Property]
    public void NextDays_SteadyFind_ConvergesToWhatIsWanted(FindHistory history)
    {
        var perDay = history.Step.Wanted / (decimal)history.SteadyDays;
        var planned = history.First;
        for (var visit = 0; visit < 40; visit++)
        {
            var elapsed = Math.Max(1, ConditionInterval.WholeDays(planned) + (visit % 3) - 1);
            planned = history.Step.NextDays(planned, elapsed, perDay * elapsed);
        }

        var wanted = decimal.Clamp((decimal)history.SteadyDays, history.Step.FloorDays, history.Step.CeilingDays);
        Assert.InRange(planned, wanted - 0.01m, wanted + 0.01m);
    }

    [Property]
    public void NextDays_MoreFound_IsNeverLater(FindHistory history)
    {
        foreach (var (elapsed, found) in history.Finds.Where(f => f.Found is not null))
        {
            Assert.True(history.Step.NextDays(history.First, elapsed, found + 1) <= history.Step.NextDays(history.First, elapsed, found));
        }
    }
}

/// <summary>A step, its first interval, the days in which it gathers what is wanted, and what was found after how many days.</summary>
public sealed record FindHistory(ConditionInterval Step, decimal First, double SteadyDays, IReadOnlyList<(int? Elapsed, decimal? Found)> Finds);

/// <summary>Makes bounds of every width and finds of every size.</summary>
public static class FindHistories
{
    public static Arbitrary<FindHistory> History()
    {
        var find = from elapsed in Gen.Choose(0, 400)
                   from isKnown in Gen.Elements(true, true, true, false)
                   from found in Gen.Choose(0, 100_000)
                   from isSaid in Gen.Elements(true, true, true, false)
                   select (isKnown ? (int?)elapsed : null, isSaid ? (decimal?)found / 100 : null);
        var history = from floor in Gen.Choose(1, 100)
                      from width in Gen.Choose(0, 400)
                      from wanted in Gen.Choose(1, 5000)
                      from first in Gen.Choose(1, 500)
                      from steady in Gen.Choose(1, 4000)
                      from finds in find.ListOf()
                      select new FindHistory(new(floor, floor + width, wanted / 100m), first, steady / 10.0, [.. finds]);
        return history.ToArbitrary();
    }
}
