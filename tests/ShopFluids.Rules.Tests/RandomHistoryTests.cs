using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using ShopFluids.Rules.Advice;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.OverdueTest;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Rules.Shipped;

namespace ShopFluids.Rules.Tests;

/// <summary>What holds for any history of a sump, whatever is measured in whatever order.</summary>
[Properties(Arbitrary = [typeof(Histories)], MaxTest = 200, Replay = "20260304,20261125")]
public sealed class RandomHistoryTests
{
    private static readonly ParameterLimits[] Limits = [.. ShippedLimits.Default(5m, 8m).Select(l => l.Limits), CommonPractice.Level(300m, 80m).Limits];

    private static readonly CareStepFacts[] Plan =
    [
        Some.Step(parameters: [ParameterCodes.Concentration, ParameterCodes.Ph], id: Some.Id(901)),
        Some.Step(basis: IntervalBasis.FromLastDone, parameters: [ParameterCodes.Bacteria], id: Some.Id(902)),
        Some.Step(TaskKind.Skim, intervalDays: 1, closedDays: ClosedDayPolicy.AsIs, id: Some.Id(903)),
    ];

    [Property]
    public void Evaluate_AnyHistory_ReplaysToTheSameBytes(History history) => Assert.Equal(Run(history).History, Run(history).History);

    [Property]
    public void Evaluate_AnyHistory_NeverHasTwoOpenTasksOfAKindAndCause(History history) =>
        Run(history, sump => Assert.Equal(sump.Tasks.Count, sump.Tasks.Select(t => (t.Kind, t.Cause)).Distinct().Count()));

    [Property]
    public void Evaluate_AnyHistory_NeverHasTwoOpenFlagsOfARuleAndParameter(History history) =>
        Run(history, sump => Assert.Equal(sump.Flags.Count, sump.Flags.Select(f => (f.Rule, f.Parameter)).Distinct().Count()));

    [Property]
    public void Evaluate_AnyHistory_EveryCorrectiveTaskBelongsToAnOpenFlag(History history) => Run(history, sump =>
        Assert.Subset(
            sump.Flags.Select(f => $"{f.Rule}:{f.Parameter}").ToHashSet(),
            sump.Tasks.Where(t => !CareSchedule.IsCauseOfStep(t.Cause)).Select(t => t.Cause).ToHashSet()));

    [Property]
    public void Evaluate_AnyHistory_EveryOpenFlagHasItsWorkOpen(History history) => Run(history, sump => Assert.All(
        sump.Flags.Where(f => f.Rule != OverdueTestRule.Code),
        flag => Assert.Subset(
            sump.Tasks.Where(t => !CareSchedule.IsCauseOfStep(t.Cause)).Select(t => t.Kind).ToHashSet(),
            CorrectiveWork.For(flag.Rule, flag.Parameter, flag.Direction, flag.Severity, isConfirmed: false).Where(k => CorrectiveWork.IsOnWholeSump(k) && !(k == TaskKind.Adjust && IsToBeDrained(sump))).ToHashSet())));

    [Property]
    public void Evaluate_AnyHistory_EveryStepKeepsExactlyOneOpenTask(History history) => Run(history, sump =>
        Assert.Equal(Plan.Select(s => CareSchedule.CauseOf(s.Id)), sump.Tasks.Select(t => t.Cause).Where(CareSchedule.IsCauseOfStep).Order(StringComparer.Ordinal)));

    [Property]
    public void Evaluate_AnyHistory_NextTestIsTheEarliestOpenOne(History history)
    {
        var sump = new Simulator(Limits, Plan, Some.Calendar());
        foreach (var reading in history.Readings)
        {
            var evaluation = sump.Apply(reading);

            Assert.Equal(sump.Tasks.Where(t => t.Kind == TaskKind.Test).Min(t => t.DueAt), evaluation.NextTestDueAt);
        }
    }

    [Property]
    public void EvaluateClock_AnyHistory_IsFlaggedExactlyWhileATestIsLate(History history)
    {
        var sump = new Simulator(Limits, Plan, Some.Calendar());
        foreach (var reading in history.Readings)
        {
            sump.Tick(reading.TakenAt);
            Assert.Equal(sump.Tasks.Any(t => OverdueTestRule.IsLate(t, reading.TakenAt)), sump.Flags.Any(f => f.Rule == OverdueTestRule.Code));
            sump.Apply(reading);
            Assert.Equal(sump.Tasks.Any(t => OverdueTestRule.IsLate(t, reading.TakenAt)), sump.Flags.Any(f => f.Rule == OverdueTestRule.Code));
        }
    }

    // Draining answers a wrong concentration and a low level as well.
    private static bool IsToBeDrained(Simulator sump) => sump.Flags.Any(f => CorrectiveWork.IsPastMending(f.Rule, f.Parameter, f.Direction, f.Severity));

    private static Simulator Run(History history, Action<Simulator>? check = null)
    {
        var sump = new Simulator(Limits, Plan, Some.Calendar());
        foreach (var reading in history.Readings)
        {
            sump.Tick(reading.TakenAt);
            sump.Apply(reading);
            check?.Invoke(sump);
        }

        return sump;
    }
}

/// <summary>Readings of one sump, oldest first.</summary>
public sealed record History(IReadOnlyList<ReadingFacts> Readings)
{
    public override string ToString() =>
        string.Join('\n', Readings.Select(r => $"{r.TakenAt:u} {string.Join(", ", r.Measurements.Select(m => $"{m.Parameter} {m.Value}"))}"));
}

/// <summary>Makes histories in which values wander about all of the shipped limits.</summary>
public static class Histories
{
    private static readonly (string Parameter, int Low, int High, decimal Step)[] Ranges =
    [
        (ParameterCodes.Concentration, 20, 120, 0.1m),
        (ParameterCodes.Ph, 78, 102, 0.1m),
        (ParameterCodes.Level, 0, 400, 1m),
        (ParameterCodes.Bacteria, 4, 16, 0.5m),
        (ParameterCodes.TrampOil, 0, 100, 1m),
        (ParameterCodes.Odour, 0, 3, 1m),
        (ParameterCodes.Fines, 0, 3, 1m),
        (ParameterCodes.Nitrite, 0, 40, 1m),
    ];

    public static Arbitrary<History> History()
    {
        var measurement = from range in Gen.Elements(Ranges)
                          from value in Gen.Choose(range.Low, range.High)
                          select new MeasurementFacts(range.Parameter, "", value * range.Step, 0m);
        var visit = from hours in Gen.Choose(1, 96)
                    from measurements in measurement.ListOf()
                    select (Hours: hours, Measurements: measurements.DistinctBy(m => m.Parameter).ToList());
        var history = from visits in visit.ListOf()
                      select new History(Readings([.. visits]));
        return history.ToArbitrary();
    }

    private static List<ReadingFacts> Readings(IReadOnlyList<(int Hours, List<MeasurementFacts> Measurements)> visits)
    {
        var (readings, takenAt) = (new List<ReadingFacts>(), Some.Now);
        foreach (var (hours, measurements) in visits)
        {
            takenAt = takenAt.AddHours(hours);
            readings.Add(new(Some.Id(readings.Count), takenAt, measurements));
        }

        return readings;
    }
}
