using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Sumps;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.LateArrival;

namespace ShopFluids.Core.Record.Replay;

/// <summary>Everything that ever happened at one sump, from which its standing before any entry of the record can be told.</summary>
internal sealed class SumpPast
{
    private readonly RecordOrder _order;
    private readonly List<Flag> _flags;
    private readonly List<CareTask> _tasks;
    private readonly List<(Guid Id, bool IsAddition, Guid ChargeId, MovementFacts Movement)> _movements;
    private readonly Dictionary<Guid, Reading> _superseding;

    private SumpPast(RecordOrder order, Sump sump, List<Charge> charges, List<Reading> readings, List<Flag> flags, List<CareTask> tasks, List<Addition> additions, List<Removal> removals)
    {
        _order = order;
        Sump = sump;
        Charges = charges.ToDictionary(c => c.Id);
        Readings = readings;
        _flags = flags;
        _tasks = tasks;
        _movements =
        [
            .. additions.Select(a => (a.Id, true, a.ChargeId, new MovementFacts(a.AddedAtUtc, (double)a.WaterLitres, (double)a.ConcentrateLitres, 0)))
                .Concat(removals.Select(r => (r.Id, false, r.ChargeId, new MovementFacts(r.RemovedAtUtc, 0, 0, (double)r.Litres))))
                .OrderBy(m => m.Item4.At),
        ];
        _superseding = readings.Where(r => r.SupersedesId is not null).ToDictionary(r => r.SupersedesId ?? Guid.Empty);
    }

    public Sump Sump { get; }

    public IReadOnlyDictionary<Guid, Charge> Charges { get; }

    /// <summary>In the order of their time, superseded ones too.</summary>
    public IReadOnlyList<Reading> Readings { get; }

    /// <summary>Flags that no reading raised.</summary>
    public IEnumerable<Flag> FlagsOfTheClock => _flags.Where(f => f.ReadingId is null);

    public static async Task<SumpPast> ReadAsync(ShopFluidsDbContext db, RecordOrder order, Sump sump, CancellationToken cancellationToken)
    {
        var charges = await db.Charges.AsNoTracking().Where(c => c.SumpId == sump.Id).ToListAsync(cancellationToken);
        var ids = charges.ConvertAll(c => c.Id);
        return new(
            order,
            sump,
            charges,
            await db.Readings.AsNoTracking().Include(r => r.Measurements).Where(r => r.SumpId == sump.Id)
                .OrderBy(r => r.TakenAtUtc).ThenBy(r => r.StoredAtUtc).ThenBy(r => r.Id).ToListAsync(cancellationToken),
            await db.Flags.AsNoTracking().Where(f => f.SumpId == sump.Id).OrderBy(f => f.RaisedAtUtc).ThenBy(f => f.Id).ToListAsync(cancellationToken),
            await db.CareTasks.AsNoTracking().Where(t => t.SumpId == sump.Id).ToListAsync(cancellationToken),
            await db.Additions.AsNoTracking().Where(a => ids.Contains(a.ChargeId)).ToListAsync(cancellationToken),
            await db.Removals.AsNoTracking().Where(r => ids.Contains(r.ChargeId)).ToListAsync(cancellationToken));
    }

    /// <summary>What was known of the sump before an entry.</summary>
    /// <param name="correction">The reading that the entry stored, where it supersedes another: that one does not count any more.</param>
    public StandingFacts Before(long sequence, Charge charge, Reading? correction = null)
    {
        var flags = _flags.Where(f => _order.IsOpenBefore<Flag>(f.Id, sequence));
        var tasks = _tasks.Where(t => _order.IsOpenBefore<CareTask>(t.Id, sequence));
        var moved = MovementsBefore(sequence, charge.Id).Select(m => (DateTime?)m.At).Max();
        var facts = StandingFold.Fresh(charge.FilledAtUtc, [], moved);
        foreach (var reading in CountingBefore(sequence, charge.Id, correction))
        {
            facts = StandingFold.Add(facts, reading.TakenAtUtc, reading.Measurements);
        }

        return StandingFold.With(facts, flags.Select(f => f.ToOpen()), tasks.Select(t => t.ToOpen() with { DueAt = _order.DueBefore(t.Id, sequence) ?? t.DueAtUtc }));
    }

    /// <summary>The charge before a reading, as the rules that look back saw it.</summary>
    public ChargeHistory HistoryBefore(long sequence, Reading reading) => ChargeHistoryQuery.Assemble(
        [.. CountingBefore(sequence, reading.ChargeId, reading)
            .Where(r => r.TakenAtUtc < reading.TakenAtUtc)
            .Reverse()
            .SelectMany(r => r.Measurements, (r, m) => new PastMeasurement(r.Id, r.TakenAtUtc, m.Parameter, m.Method, m.Value, m.Uncertainty))
            .TakeWhile((m, place) => ChargeHistoryQuery.IsLookedAt(m, place, reading.TakenAtUtc))],
        since => [.. MovementsBefore(sequence, reading.ChargeId).Where(m => m.At > since && m.At <= reading.TakenAtUtc)]);

    /// <summary>What else was known of the charge, where a reading arrived after later ones or corrected one.</summary>
    public LateArrivals? LateArrivalsBefore(long sequence, Reading reading)
    {
        var others = CountingBefore(sequence, reading.ChargeId, null).ToList();
        if (reading.SupersedesId is null && !others.Exists(r => r.TakenAtUtc > reading.TakenAtUtc))
        {
            return null;
        }

        var ofCharge = Readings.Where(r => r.ChargeId == reading.ChargeId).Select(r => (Guid?)r.Id).ToHashSet();
        var tests = _tasks.Where(t => t.Kind == TaskKind.Test && t.StepId is not null && _order.IsMadeBefore<CareTask>(t.Id, sequence))
            .Where(t => _order.IsOpenBefore<CareTask>(t.Id, sequence) || t.State != TaskState.Withdrawn)
            .Select(t => new TestItem(
                t.ToOpen() with { DueAt = _order.DueBefore(t.Id, sequence) ?? t.DueAtUtc },
                LateArrivals.EndOf(_order.IsOpenBefore<CareTask>(t.Id, sequence), ofCharge.Contains(t.EndedByReadingId))));
        return new(
            [.. others.SelectMany(r => r.Measurements, (r, m) => new PastMeasurement(r.Id, r.TakenAtUtc, m.Parameter, m.Method, m.Value, m.Uncertainty))],
            [.. MovementsBefore(sequence, reading.ChargeId).OrderBy(m => m.At)],
            [.. tests])
        {
            SupersededId = reading.SupersedesId,
            Led = reading.SupersedesId is { } supersededId ? LedBy(supersededId, sequence) : new HashSet<Guid>(),
            Closed =
            [
                .. _flags.Where(f => f.ChargeId == reading.ChargeId && f.EndedHow == FlagEnd.Closed && _order.EndedIn<Flag>(f.Id) < sequence)
                    .Select(f => new ClosedByHand(f.Rule, f.Parameter, f.Severity, f.EndedAtUtc ?? default)),
            ],
        };
    }

    private HashSet<Guid> LedBy(Guid readingId, long sequence) =>
    [
        .. _flags.Where(f => f.ReadingId == readingId && _order.IsOpenBefore<Flag>(f.Id, sequence)).Select(f => f.Id),
        .. _tasks.Where(t => t.ReadingId == readingId && _order.IsOpenBefore<CareTask>(t.Id, sequence)).Select(t => t.Id),
    ];

    private IEnumerable<Reading> CountingBefore(long sequence, Guid chargeId, Reading? correction) =>
        Readings.Where(r => r.ChargeId == chargeId
            && _order.IsMadeBefore<Reading>(r.Id, sequence)
            && !(_superseding.TryGetValue(r.Id, out var later) && (later.Id == correction?.Id || _order.IsMadeBefore<Reading>(later.Id, sequence))));

    private IEnumerable<MovementFacts> MovementsBefore(long sequence, Guid chargeId) => _movements
        .Where(m => m.ChargeId == chargeId && (m.IsAddition ? _order.IsMadeBefore<Addition>(m.Id, sequence) : _order.IsMadeBefore<Removal>(m.Id, sequence)))
        .Select(m => m.Movement);
}
