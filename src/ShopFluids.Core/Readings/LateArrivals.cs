using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Sumps;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.LateArrival;

namespace ShopFluids.Core.Readings;

/// <summary>
/// What is known of a charge when a reading arrives after later ones, or corrects one. Loaded only then, and in full: such readings are few.
/// </summary>
/// <param name="Measured">
/// Of the charge's readings that count until now, the one to be superseded among them, in the order of their time; of one time, in the order they
/// were stored.
/// </param>
/// <param name="Movements">Oldest first.</param>
/// <param name="Tests">The tasks of the tests of the plan.</param>
internal sealed record LateArrivals(IReadOnlyList<PastMeasurement> Measured, IReadOnlyList<MovementFacts> Movements, IReadOnlyList<TestItem> Tests)
{
    /// <summary>The reading that is superseded; null where this is a new one.</summary>
    public Guid? SupersededId { get; init; }

    /// <summary>The open flags and tasks that the superseded reading has led to.</summary>
    public IReadOnlySet<Guid> Led { get; init; } = new HashSet<Guid>();

    /// <summary>The flags of the charge that a supervisor has closed.</summary>
    public IReadOnlyList<ClosedByHand> Closed { get; init; } = [];

    /// <returns>Null where the reading is a new one and the latest.</returns>
    public static async Task<LateArrivals?> ForAsync(ShopFluidsDbContext db, RecordReading command, Standing standing, Charge charge, CancellationToken cancellationToken)
    {
        if (command.SupersedesId is null && !(standing.LastReadAtUtc > command.TakenAtUtc))
        {
            return null;
        }

        var measured = await db.Readings.AsNoTracking()
            .Where(r => r.ChargeId == charge.Id && !db.Readings.Any(later => later.SupersedesId == r.Id))
            .OrderBy(r => r.TakenAtUtc).ThenBy(r => r.StoredAtUtc).ThenBy(r => r.Id)
            .SelectMany(r => r.Measurements, (r, m) => new PastMeasurement(r.Id, r.TakenAtUtc, m.Parameter, m.Method, m.Value, m.Uncertainty))
            .ToListAsync(cancellationToken);
        var additions = await db.Additions.Where(a => a.ChargeId == charge.Id)
            .Select(a => new MovementFacts(a.AddedAtUtc, (double)a.WaterLitres, (double)a.ConcentrateLitres, 0)).ToListAsync(cancellationToken);
        var removals = await db.Removals.Where(r => r.ChargeId == charge.Id)
            .Select(r => new MovementFacts(r.RemovedAtUtc, 0, 0, (double)r.Litres)).ToListAsync(cancellationToken);
        var tests = await db.CareTasks.AsNoTracking()
            .Where(t => t.SumpId == charge.SumpId && t.Kind == TaskKind.Test && t.StepId != null && t.State != TaskState.Withdrawn)
            .Select(t => new { Task = t, IsByReading = db.Readings.Any(r => r.Id == t.EndedByReadingId && r.ChargeId == charge.Id) })
            .ToListAsync(cancellationToken);
        var closed = await db.Flags.AsNoTracking()
            .Where(f => f.ChargeId == charge.Id && f.EndedHow == FlagEnd.Closed && f.EndedAtUtc != null)
            .Select(f => new { f.Rule, f.Parameter, f.Severity, f.EndedAtUtc })
            .ToListAsync(cancellationToken);
        return new(
            measured,
            [.. additions.Concat(removals).OrderBy(m => m.At)],
            [.. tests.Select(t => new TestItem(t.Task.ToOpen(), EndOf(t.Task.State == TaskState.Open, t.IsByReading)))])
        {
            SupersededId = command.SupersedesId,
            Led = command.SupersedesId is { } supersededId ? await LedAsync(db, supersededId, cancellationToken) : new HashSet<Guid>(),
            Closed = closed.ConvertAll(f => new ClosedByHand(f.Rule, f.Parameter, f.Severity, f.EndedAtUtc ?? default)),
        };
    }

    /// <summary>A standing without what the superseded reading has led to: by it the correction itself is judged.</summary>
    public StandingFacts Without(StandingFacts standing) => Led.Count == 0 ? standing : standing with
    {
        OpenFlags = [.. standing.OpenFlags.Where(f => !Led.Contains(f.Id))],
        OpenTasks = [.. standing.OpenTasks.Where(t => !Led.Contains(t.Id))],
    };

    public static TestEnd EndOf(bool isOpen, bool isByReading) => isOpen ? TestEnd.Open : isByReading ? TestEnd.ByReading : TestEnd.Otherwise;

    /// <summary>The case of the reading: each other one with the limits of its time.</summary>
    public LateCase CaseOf(ReadingJudge judge, EvaluationInput late)
    {
        var others = Measured.GroupBy(m => m.ReadingId).Select(g => (
            g.First().TakenAtUtc,
            Facts: new ReadingFacts(g.Key, g.First().TakenAtUtc, [.. g
                .OrderBy(m => judge.Setup.FindParameter(m.Parameter)?.Order).ThenBy(m => m.Method, StringComparer.Ordinal)
                .Select(m => new MeasurementFacts(m.Parameter, m.Method, (decimal)m.Value, (decimal)m.Uncertainty))])));
        return new(
            late,
            [.. others.Select(r => (judge with { Limits = judge.Setup.LimitsAt(judge.Sump.Id, judge.Charge.FluidId, r.TakenAtUtc) }).Input(r.Facts, late.Standing, ChargeHistory.Empty, late.Now))],
            Movements,
            TestSeries.Firsts(Tests),
            ChargeHistoryQuery.LeastMeasurements,
            ChargeHistoryQuery.LeastDays)
        {
            Superseded = SupersededId,
            Led = Led,
            Closed = Closed,
        };
    }

    private static async Task<HashSet<Guid>> LedAsync(ShopFluidsDbContext db, Guid supersededId, CancellationToken cancellationToken) =>
    [
        .. await db.Flags.Where(f => f.ReadingId == supersededId && f.EndedAtUtc == null).Select(f => f.Id).ToListAsync(cancellationToken),
        .. await db.CareTasks.Where(t => t.ReadingId == supersededId && t.State == TaskState.Open).Select(t => t.Id).ToListAsync(cancellationToken),
    ];
}
