using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Board;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules;
using ShopFluids.Rules.Advice;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Rounds;

/// <summary>The walk past the sumps that are due in this shop day, in walking order.</summary>
/// <param name="Due">Neither read nor passed by, then those of which a part is still to do; the first is the next to read.</param>
/// <param name="Read">Read in this shop day and due no more.</param>
/// <param name="All">Every sump in use.</param>
/// <param name="Later">The sump whose test is due next after this shop day; null when none is planned.</param>
/// <param name="MinutesLeft">What the care plans reckon for the tests still due and the work that goes along; 0 when they say nothing.</param>
public sealed record RoundPage(
    DateTime NowUtc,
    IReadOnlyList<RoundStop> Due,
    IReadOnlyList<RoundStop> Read,
    IReadOnlyList<RoundStop> All,
    RoundStop? Later,
    int MinutesLeft)
{
    /// <summary>Sumps to be drained and cleaned by the end of this shop day, or begun already, in walking order.</summary>
    public IReadOnlyList<RoundDraining> Drainings { get; init; } = [];

    /// <summary>Dip slides whose window has begun, or begins by the end of this shop day; the earliest first.</summary>
    public IReadOnlyList<RoundSlide> Slides { get; init; } = [];

    /// <summary>Due, but passed by on this day's round with a reason.</summary>
    public IReadOnlyList<RoundStop> Skipped { get; init; } = [];

    /// <summary>Those of which whoever comes must know something before they come, though nothing is to be read there.</summary>
    public IEnumerable<RoundStop> DangerousElsewhere => All.Where(s => s.IsDangerous).Except(Due).Except(Skipped);

    /// <summary>Sumps at which work is due and nothing to be read, in walking order.</summary>
    public IReadOnlyList<RoundService> Services { get; init; } = [];

    /// <summary>
    /// Where time is short: the due sumps that need it most, the most urgent first, at most three. Empty where none stands out. The walk itself keeps its
    /// order: a sump costs half a minute, going to and fro between them costs more.
    /// </summary>
    public IReadOnlyList<RoundStop> Pressing
    {
        get
        {
            List<RoundStop> pressing = [.. Due.Where(s => s.Priority.HasActionFlag || s.Priority.LateQuarters > 0).OrderBy(s => s.Priority, WorkPriority.MostUrgentFirst).Take(MostPressing)];
            return pressing.SequenceEqual(Due.Take(pressing.Count)) ? [] : pressing;
        }
    }

    private const int MostPressing = 3;

    /// <summary>On from a sump in walking order to one that was not visited; then those passed by, then those of which a part is to do. Null when none is left.</summary>
    public RoundStop? NextAfter(Guid sumpId)
    {
        var order = All.Select((s, i) => (s.Place.SumpId, Place: i)).ToDictionary(s => s.SumpId, s => s.Place);
        var here = order.GetValueOrDefault(sumpId, -1);
        return Due.Where(s => s.Place.SumpId != sumpId)
            .OrderBy(s => s.Tests.IsPartlyRead)
            .ThenBy(s => order[s.Place.SumpId] < here)
            .ThenBy(s => order[s.Place.SumpId])
            .FirstOrDefault();
    }
}

/// <summary>A dip slide that is to be read.</summary>
public sealed record RoundSlide(Guid SlideId, string SumpTag, DateTime ReadFromUtc, DateTime ReadUntilUtc);

/// <summary>A sump that is to be drained and cleaned.</summary>
/// <param name="DueAtUtc">When it becomes late; null where it was begun without being due.</param>
/// <param name="IsBegun">Steps of it are done.</param>
public sealed record RoundDraining(SumpPlace Place, DateTime? DueAtUtc, bool IsBegun);

/// <summary>One sump of the round.</summary>
/// <param name="DueAtUtc">When its earliest open test becomes late; null when none is open.</param>
/// <param name="Tests">What the tests due ask to be measured.</param>
/// <param name="FilledAtUtc">Null when the sump stands empty.</param>
/// <param name="Worst">The parameter whose latest value is the reason for the verdict; null when that is not one value's doing.</param>
public sealed record RoundStop(
    SumpPlace Place,
    Verdict Verdict,
    Direction Direction,
    WorstValue? Worst,
    DateTime? LastReadAtUtc,
    DateTime? FilledAtUtc,
    DateTime? DueAtUtc,
    DueTests Tests)
{
    /// <summary>Why it was passed by on this day's round; null when it was not, or was read since.</summary>
    public StopSkip? Skip { get; init; }

    /// <summary>What else is to be done there today, due or brought forward.</summary>
    public IReadOnlyList<RoundWork> Along { get; init; } = [];

    /// <summary>Until when people keep away after a dose; null when nobody has to.</summary>
    public KeepAway? KeepAway { get; init; }

    /// <summary>It smelled of hydrogen sulphide when somebody last smelled at it.</summary>
    public bool WarnsOfGas { get; init; }

    /// <summary>Whoever goes there must know something before they go.</summary>
    public bool IsDangerous => KeepAway is not null || WarnsOfGas;

    /// <summary>How urgently it needs somebody.</summary>
    public WorkPriority Priority { get; init; } = new(HasActionFlag: false, 0, 0, 0);

    public bool IsLateAt(DateTime nowUtc) => DueAtUtc < nowUtc;
}

public sealed record WorstValue(string Parameter, decimal Value);

public sealed class RoundPageQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    public async Task<RoundPage> RunAsync(CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        var now = clock.UtcNow;
        var today = setup.Calendar.ShopDayOf(now);
        var dayEnd = setup.Calendar.EndOf(today);
        var standings = await db.Standings.AsNoTracking().ToDictionaryAsync(s => s.SumpId, cancellationToken);
        var skips = await StopSkip.OfDayAsync(db, today, cancellationToken);
        var keepAways = KeepAwayQuery.BySump(await KeepAwayQuery.DosesAsync(db, now, cancellationToken), now);
        var prices = await SumpPriority.PricesAsync(db, cancellationToken);
        var all = setup.Sumps.Where(s => !s.IsRetired).Select(s => Stop(setup, s, standings.GetValueOrDefault(s.Id), today, now, skips) with
        {
            KeepAway = keepAways.GetValueOrDefault(s.Id),
            WarnsOfGas = CautionAdvice.WarnsOfGas(standings.GetValueOrDefault(s.Id)?.Facts),
            Along = RoundWork.Of(setup, s.Id, standings.GetValueOrDefault(s.Id)?.Facts, now),
            Priority = SumpPriority.Of(setup, s, standings.GetValueOrDefault(s.Id)?.Facts, standings.GetValueOrDefault(s.Id)?.VolumeLitres, prices, now),
        }).ToList();

        // Who left a value out had a reason, and is not sent back before the walk is done.
        var open = all.Where(s => s.FilledAtUtc is not null && s.DueAtUtc <= dayEnd).OrderBy(s => s.Tests.IsPartlyRead).ToList();
        var dueIds = open.Select(s => s.Place.SumpId).ToHashSet();
        var due = open.Where(s => s.Skip is null).ToList();
        var read = all.Where(s => !dueIds.Contains(s.Place.SumpId) && s.LastReadAtUtc is { } at && setup.Calendar.ShopDayOf(at) == today).ToList();
        var later = all.Where(s => s.FilledAtUtc is not null && s.DueAtUtc > dayEnd).MinBy(s => s.DueAtUtc);
        var minutes = due.Sum(s => MinutesOf(setup, s, standings[s.Place.SumpId], dayEnd));
        return new(now, due, read, all, later, minutes)
        {
            Drainings = await DrainingsAsync(db, all, dayEnd, cancellationToken),
            Slides = await SlidesAsync(db, setup, dayEnd, cancellationToken),
            Skipped = [.. open.Where(s => s.Skip is not null)],
            Services = await ServicesAsync(db, [.. all.Where(s => s.FilledAtUtc is not null && !dueIds.Contains(s.Place.SumpId) && s.Along.Any(w => w.IsDue))], cancellationToken),
        };
    }

    private static async Task<List<RoundSlide>> SlidesAsync(ShopFluidsDbContext db, ShopSetup setup, DateTime dayEnd, CancellationToken cancellationToken)
    {
        var tags = setup.Sumps.ToDictionary(s => s.Id, s => s.Tag);
        var open = await db.Slides.AsNoTracking().Where(s => s.EndedAtUtc == null && s.ReadFromUtc <= dayEnd).OrderBy(s => s.ReadFromUtc).ThenBy(s => s.Id).ToListAsync(cancellationToken);
        return open.ConvertAll(s => new RoundSlide(s.Id, tags[s.SumpId], s.ReadFromUtc, s.ReadUntilUtc));
    }

    /// <summary>Whether a test of a sump falls due by the end of a shop day.</summary>
    internal static bool IsDue(ShopSetup setup, Sump sump, DateTime? nextTestDueAtUtc, DateTime dayEndUtc) =>
        !sump.IsRetired && setup.OpenCharge(sump.Id) is not null && nextTestDueAtUtc <= dayEndUtc;

    private static async Task<List<RoundDraining>> DrainingsAsync(ShopFluidsDbContext db, List<RoundStop> all, DateTime dayEnd, CancellationToken cancellationToken)
    {
        var due = await db.CareTasks.AsNoTracking()
            .Where(t => t.Kind == TaskKind.DrainClean && t.State == TaskState.Open && t.DueAtUtc <= dayEnd)
            .GroupBy(t => t.SumpId)
            .Select(g => new { SumpId = g.Key, DueAtUtc = g.Min(t => t.DueAtUtc) })
            .ToDictionaryAsync(t => t.SumpId, t => t.DueAtUtc, cancellationToken);
        var begun = await db.CleanOuts.AsNoTracking().Where(c => c.EndedAtUtc == null).Select(c => c.SumpId).ToListAsync(cancellationToken);
        return [.. all.Where(s => s.FilledAtUtc is not null && (due.ContainsKey(s.Place.SumpId) || begun.Contains(s.Place.SumpId)))
            .Select(s => new RoundDraining(s.Place, due.TryGetValue(s.Place.SumpId, out var at) ? at : null, begun.Contains(s.Place.SumpId)))];
    }

    private static RoundStop Stop(ShopSetup setup, Sump sump, Standing? standing, DateOnly today, DateTime now, Dictionary<Guid, StopSkip> skips) => new(
        SumpPlace.Of(setup, sump, standing?.VolumeLitres),
        standing?.Verdict ?? Verdict.NotMeasured,
        SumpStanding.Of(standing?.Facts, now).Direction,
        WorstOf(standing),
        standing?.LastReadAtUtc,
        setup.OpenCharge(sump.Id)?.FilledAtUtc,
        standing?.NextTestDueAtUtc,
        DueTests.Of(setup, sump.Id, standing?.Facts, today))
    {
        Skip = skips.TryGetValue(sump.Id, out var skip) && skip.HoldsAfter(standing?.LastReadAtUtc) ? skip : null,
    };

    private static WorstValue? WorstOf(Standing? standing)
    {
        if (standing is not { Verdict: >= Verdict.Warning, Facts.Latest: { } latest })
        {
            return null;
        }

        var worst = latest.Where(l => l.Value.Verdict == standing.Verdict).ToList();
        return worst.Count == 1 ? new(worst[0].Key, worst[0].Value.Value) : null;
    }

    private static async Task<List<RoundService>> ServicesAsync(ShopFluidsDbContext db, List<RoundStop> stops, CancellationToken cancellationToken)
    {
        var ids = stops.ConvertAll(s => s.Place.SumpId);
        var last = ids.Count == 0 ? [] : await (
            from reading in db.Readings.AsNoTracking()
            join standing in db.Standings on reading.SumpId equals standing.SumpId
            where ids.Contains(reading.SumpId) && reading.TakenAtUtc == standing.LastReadAtUtc && !db.Readings.Any(r => r.SupersedesId == reading.Id)
            select new { reading.SumpId, reading.Id }).ToListAsync(cancellationToken);
        return stops.ConvertAll(s => new RoundService(s.Place, s.Along, last.Where(r => r.SumpId == s.Place.SumpId).Select(r => (Guid?)r.Id).Max()));
    }

    private static int MinutesOf(ShopSetup setup, RoundStop stop, Standing standing, DateTime dayEnd)
    {
        var tests = standing.Facts?.OpenTasks.Where(t => t.Kind == TaskKind.Test && t.DueAt <= dayEnd).Select(t => t.Cause) ?? [];
        var causes = tests.Concat(stop.Along.Select(w => w.Cause)).ToHashSet(StringComparer.Ordinal);
        return setup.StepsOf(stop.Place.SumpId).Where(s => causes.Contains(CareStep.CauseOf(s.Id))).Sum(s => s.EstimatedMinutes);
    }
}
