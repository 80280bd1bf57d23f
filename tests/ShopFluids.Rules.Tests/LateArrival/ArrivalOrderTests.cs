using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Rules.Shipped;

namespace ShopFluids.Rules.Tests.LateArrival;

/// <summary>In whatever order the readings of a charge arrive, in the end the same is open and known.</summary>
[Properties(Arbitrary = [typeof(Arrivals)], MaxTest = 300, Replay = "20260304,20261125")]
public sealed class ArrivalOrderTests
{
    private static readonly ParameterLimits[] Limits = [.. ShippedLimits.Default(5m, 8m).Select(l => l.Limits), CommonPractice.Level(300m, 80m).Limits];

    private static readonly CareStepFacts[] Plan =
    [
        Some.Step(parameters: [ParameterCodes.Concentration, ParameterCodes.Ph], id: Some.Id(901)),
        Some.Step(basis: IntervalBasis.FromLastDone, intervalDays: 3, parameters: [ParameterCodes.Bacteria], id: Some.Id(902)),
        Some.Step(TaskKind.Skim, intervalDays: 1, closedDays: ClosedDayPolicy.AsIs, id: Some.Id(903)),
        Some.Step(TaskKind.Inspect, IntervalBasis.AfterFlag, 1, id: Some.Id(904)),
    ];

    [Property]
    public void Settle_AnyOrderOfArrival_LeavesTheSameOpen(Arrival arrival)
    {
        var inOrder = Posted(arrival.History, arrival.History.Readings);

        Assert.Equal(inOrder.State, Posted(arrival.History, arrival.Shuffled).State);
        Assert.Equal(inOrder.State, Posted(arrival.History, [.. arrival.History.Readings.Reverse()]).State);
    }

    // People end work and close flags while readings are still on their way: each flag keeps its work, none is there twice.
    [Property]
    public void Settle_PeopleEndThingsMeanwhile_KeepsWhatHoldsForAnyHistory(Arrival arrival)
    {
        var sump = Empty(arrival.History);
        foreach (var (n, reading) in arrival.Shuffled.Index())
        {
            sump.Post(reading);
            Assert.Equal(sump.Tasks.Count, sump.Tasks.Select(t => (t.Kind, t.Cause)).Distinct().Count());
            Assert.Equal(sump.Flags.Count, sump.Flags.Select(f => (f.Rule, f.Parameter)).Distinct().Count());
            Assert.Subset(
                sump.Flags.Select(f => $"{f.Rule}:{f.Parameter}").ToHashSet(),
                sump.Tasks.Where(t => !CareSchedule.IsCauseOfStep(t.Cause)).Select(t => t.Cause).ToHashSet());
            if (n % 3 == 1 && sump.Flags.Count > 0)
            {
                var closed = sump.Flags[n % sump.Flags.Count];
                sump.Close(f => f == closed);
                sump.Finish(t => t.Cause == $"{closed.Rule}:{closed.Parameter}");
            }
            else if (n % 3 == 2)
            {
                sump.Finish(t => !CareSchedule.IsCauseOfStep(t.Cause));
            }
        }
    }

    // 4.5 % raises the flag; 5.1 % is inside by less than the margin and keeps it. It matters not which is written down first.
    [Fact]
    public void Settle_LateReadingBeforeOneShortOfTheMargin_RaisesTheFlag()
    {
        var sump = new ArrivalSump(Limits, [], Some.Now, Some.Now.AddDays(9));
        sump.Post(Reading(2, 5.1m));
        Assert.DoesNotContain(sump.Flags, f => f.Rule == "limit");

        sump.Post(Reading(1, 4.5m));

        Assert.Equal(("limit", ParameterCodes.Concentration, Direction.Low), sump.Flags.Select(f => (f.Rule, f.Parameter, f.Direction)).First(f => f.Rule == "limit"));
        Assert.Contains(sump.Tasks, t => t.Kind == TaskKind.Adjust && t.Cause == "limit:concentration");
    }

    // A reading well inside that was written down late had cleared the flag; the one after it is only short of the margin.
    [Fact]
    public void Settle_LateReadingWellInside_ClearsTheFlagAndItsWork()
    {
        var sump = new ArrivalSump(Limits, [], Some.Now, Some.Now.AddDays(9));
        sump.Post(Reading(1, 4.5m));
        sump.Post(Reading(3, 5.1m));
        Assert.Contains(sump.Flags, f => f.Rule == "limit");

        sump.Post(Reading(2, 6.5m));

        Assert.DoesNotContain(sump.Flags, f => f.Rule == "limit");
        Assert.DoesNotContain(sump.Tasks, t => t.Cause == "limit:concentration");
    }

    [Fact]
    public void Settle_FlagClosedByHand_IsNotRaisedAgainByTheSame()
    {
        var sump = new ArrivalSump(Limits, [], Some.Now, Some.Now.AddDays(9));
        sump.Post(Reading(2, 4.5m));
        sump.Close(f => f.Rule == "limit");
        sump.Finish(t => t.Cause == "limit:concentration");

        sump.Post(Reading(1, 4.6m));

        Assert.DoesNotContain(sump.Flags, f => f.Rule == "limit");
        Assert.DoesNotContain(sump.Tasks, t => t.Cause == "limit:concentration");
    }

    private static ReadingFacts Reading(int day, decimal percent) =>
        new(Some.Id(day), Some.Now.AddDays(day), [new MeasurementFacts(ParameterCodes.Concentration, MethodCodes.Refractometer, percent, 0)]);

    private static ArrivalSump Posted(History history, IReadOnlyList<ReadingFacts> order)
    {
        var sump = Empty(history);
        foreach (var reading in order)
        {
            sump.Post(reading);
        }

        return sump;
    }

    private static ArrivalSump Empty(History history) => new(Limits, Plan, Some.Now, history.Readings.Select(r => r.TakenAt).DefaultIfEmpty(Some.Now).Max().AddHours(1));
}

/// <summary>A history, and another order in which its readings arrive.</summary>
public sealed record Arrival(History History, IReadOnlyList<ReadingFacts> Shuffled);

/// <summary>Makes histories with an order of arrival.</summary>
public static class Arrivals
{
    public static Arbitrary<Arrival> Arrival()
    {
        var arrival = from history in Histories.History().Generator
                      from order in Gen.Shuffle(history.Readings.ToArray())
                      select new Arrival(history, order);
        return arrival.ToArbitrary();
    }
}
