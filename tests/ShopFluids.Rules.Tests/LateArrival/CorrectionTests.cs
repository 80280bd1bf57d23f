using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Shipped;

namespace ShopFluids.Rules.Tests.LateArrival;

/// <summary>A wrong reading that is corrected, whenever that is, leaves open what the right one would have left.</summary>
[Properties(Arbitrary = [typeof(Slips)], MaxTest = 300, Replay = "20260305,20261127")]
public sealed class CorrectionTests
{
    private static readonly ParameterLimits[] Limits = [.. ShippedLimits.Default(5m, 8m).Select(l => l.Limits), CommonPractice.Level(300m, 80m).Limits];

    private static readonly CareStepFacts[] Plan =
    [
        Some.Step(parameters: [ParameterCodes.Concentration, ParameterCodes.Ph], id: Some.Id(901)),
        Some.Step(TaskKind.Inspect, IntervalBasis.AfterFlag, 1, id: Some.Id(904)),
    ];

    [Property]
    public void Settle_WrongThenCorrected_LeavesOpenWhatTheRightOneLeaves(Slip slip)
    {
        var (right, wrong) = (Empty(slip), Empty(slip));
        foreach (var reading in slip.Right)
        {
            right.Post(reading);
        }

        foreach (var (n, reading) in slip.Right.Index())
        {
            wrong.Post(n == slip.At ? slip.Wrong : reading);
            if (n == slip.NoticedAfter)
            {
                wrong.Post(slip.Right[slip.At], slip.Wrong.Id);
            }
        }

        Assert.Equal(right.StateButDueDays, wrong.StateButDueDays);
    }

    // The correction of a correction, back to what was written first.
    [Property]
    public void Settle_CorrectedToAndFro_LeavesOpenWhatTheFirstLeft(Slip slip)
    {
        var (once, twice) = (Empty(slip), Empty(slip));
        foreach (var reading in slip.Right)
        {
            once.Post(reading);
            twice.Post(reading);
        }

        twice.Post(slip.Wrong, slip.Right[slip.At].Id);
        twice.Post(slip.Right[slip.At], slip.Wrong.Id);

        Assert.Equal(once.StateButDueDays, twice.StateButDueDays);
    }

    // 4.5 % raises the flag, 5.1 % keeps it. It should have been 6.5 %, from which 5.1 % is nothing.
    [Fact]
    public void Settle_LaterReadingOnlyKeptTheFlag_EndsIt()
    {
        var sump = Sump();
        sump.Post(Reading(1, 4.5m));
        sump.Post(Reading(2, 5.1m));
        Assert.Contains(sump.Flags, f => f.Rule == "limit");

        sump.Post(Reading(1, 6.5m, id: 11), Some.Id(1));

        Assert.DoesNotContain(sump.Flags, f => f.Rule == "limit");
        Assert.DoesNotContain(sump.Tasks, t => t.Cause == "limit:concentration");
    }

    // What a later reading found by itself is open once, with its number.
    [Fact]
    public void Settle_LaterReadingFindsTheSame_KeepsOneFlagWithTheRightNumber()
    {
        var sump = Sump();
        sump.Post(Reading(1, 4.5m));
        sump.Post(Reading(2, 4.6m));

        sump.Post(Reading(1, 6.5m, id: 11), Some.Id(1));

        Assert.Equal(4.6m, Assert.Single(sump.Flags, f => f.Rule == "limit").Numbers[Findings.NumberNames.Value]);
        Assert.Single(sump.Tasks, t => t.Cause == "limit:concentration");
    }

    // The wrong reading had cleared what was found before it; a supervisor's word comes after both.
    [Theory]
    [InlineData(false, true)]
    [InlineData(true, false)]
    public void Settle_WrongReadingHadClearedAFlag_IsOpenAgainUnlessASupervisorHadTheLastWord(bool isClosed, bool isOpen)
    {
        var sump = Sump();
        sump.Post(Reading(1, 4.5m));
        if (isClosed)
        {
            sump.Close(f => f.Rule == "limit");
            sump.Finish(t => t.Cause == "limit:concentration");
        }

        sump.Post(Reading(2, 6.5m));
        sump.Post(new(Some.Id(12), Some.Now.AddDays(2), [new MeasurementFacts(ParameterCodes.Ph, "", 9m, 0)]), Some.Id(2));

        Assert.Equal(isOpen, sump.Flags.Any(f => f.Rule == "limit"));
        Assert.Equal(isOpen, sump.Tasks.Any(t => t.Cause == "limit:concentration"));
    }

    private static ReadingFacts Reading(int day, decimal percent, int? id = null) =>
        new(Some.Id(id ?? day), Some.Now.AddDays(day), [new MeasurementFacts(ParameterCodes.Concentration, MethodCodes.Refractometer, percent, 0)]);

    private static ArrivalSump Sump() => new(Limits, [], Some.Now, Some.Now.AddDays(9));

    private static ArrivalSump Empty(Slip slip) => new(Limits, Plan, Some.Now, slip.Right.Max(r => r.TakenAt).AddHours(1));
}

/// <summary>A history of which one reading was written down wrong, and was corrected after another.</summary>
/// <param name="Right">As it should have been.</param>
/// <param name="At">The place of the wrong one.</param>
/// <param name="Wrong">What was written.</param>
/// <param name="NoticedAfter">The place of the reading after which it was corrected.</param>
public sealed record Slip(IReadOnlyList<ReadingFacts> Right, int At, ReadingFacts Wrong, int NoticedAfter);

/// <summary>Makes histories with a slip.</summary>
public static class Slips
{
    public static Arbitrary<Slip> Slip()
    {
        var slip = from history in Histories.History().Generator.Where(h => h.Readings.Count > 1)
                   from other in Histories.History().Generator.Where(h => h.Readings.Count > 0)
                   from at in Gen.Choose(0, history.Readings.Count - 1)
                   from noticed in Gen.Choose(at, history.Readings.Count - 1)
                   select new Slip(history.Readings, at, new(Some.Id(7000), history.Readings[at].TakenAt, other.Readings[0].Measurements), noticed);
        return slip.ToArbitrary();
    }
}
