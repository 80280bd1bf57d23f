using System.Collections.Concurrent;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Database;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Setup;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Board;

/// <summary>What the board shows; null shows everything.</summary>
/// <param name="Kind">Only sumps with work of this kind that is late or comes in the days shown.</param>
/// <param name="PersonId">Only sumps with such work of this person.</param>
/// <param name="Show">Only sumps that stand so.</param>
public sealed record BoardFilter(Guid? AreaId = null, Guid? PersonId = null, Rules.TaskKind? Kind = null, SumpState? Show = null)
{
    /// <summary>Looking for work shows quiet sumps among the rows too.</summary>
    public bool AsksForWork => PersonId is not null || Kind is not null;
}

/// <summary>
/// Reads the board in a dozen queries, whatever the number of sumps. It hangs in the office, at the tool crib and on the supervisor's desk all day: as long as
/// nothing was recorded, all who look share what was read last.
/// </summary>
public sealed class BoardQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    public const int DaysShown = 7;

    /// <summary>So long what was read is shown where nothing was recorded since: work may have become late meanwhile, which nobody records.</summary>
    public static readonly TimeSpan Holds = TimeSpan.FromSeconds(5);

    // Different filters that are looked through at the same time.
    private const int MostKept = 20;

    // Compiled once; a compiled query is of one model, hence no static.
    private readonly Func<ShopFluidsDbContext, CancellationToken, Task<long>> _sequence =
        EF.CompileAsyncQuery((ShopFluidsDbContext db, CancellationToken _) => db.RecordHead.Select(h => h.Sequence).Single());

    private readonly Func<ShopFluidsDbContext, IAsyncEnumerable<RowVersion>> _standingVersions =
        EF.CompileAsyncQuery((ShopFluidsDbContext db) => db.Standings.Select(s => new RowVersion(s.SumpId, s.Version)));

    private readonly Func<ShopFluidsDbContext, IAsyncEnumerable<RowVersion>> _flagVersions =
        EF.CompileAsyncQuery((ShopFluidsDbContext db) => db.Flags.Where(f => f.EndedAtUtc == null).Select(f => new RowVersion(f.Id, f.Version)));

    private readonly Func<ShopFluidsDbContext, IAsyncEnumerable<RowVersion>> _taskVersions =
        EF.CompileAsyncQuery((ShopFluidsDbContext db) => db.CareTasks.Where(t => t.State == TaskState.Open).Select(t => new RowVersion(t.Id, t.Version)));

    private readonly RowMemory<Standing> _standings = new(s => new(s.SumpId, s.Version));
    private readonly RowMemory<Flag> _flags = new(f => new(f.Id, f.Version));
    private readonly RowMemory<CareTask> _tasks = new(t => new(t.Id, t.Version));
    private readonly ConcurrentDictionary<BoardFilter, Kept> _kept = new();

    // The longest shutdown that can be planned, and the week-ends around it.
    private const int MostClosedDays = PlanShutdownHandler.MostDays + 7;

    public async Task<ShopBoard> RunAsync(BoardFilter filter, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(filter);
        await using var db = await database.ReadAsync(cancellationToken);

        // Before all else: what is recorded while the rest is read is missed by this board and not by the next.
        var sequence = await _sequence(db, cancellationToken);
        var now = clock.UtcNow;
        if (_kept.TryGetValue(filter, out var kept) && kept.Sequence == sequence && now - kept.Board.AtUtc is var age && age >= TimeSpan.Zero && age < Holds)
        {
            return kept.Board;
        }

        var board = await ReadAsync(db, filter, now, cancellationToken);
        if (_kept.Count >= MostKept)
        {
            _kept.Clear();
        }

        _kept[filter] = new(sequence, board);
        return board;
    }

    private async Task<ShopBoard> ReadAsync(ShopFluidsDbContext db, BoardFilter filter, DateTime now, CancellationToken cancellationToken)
    {
        var setup = await setups.CurrentAsync(db, cancellationToken);
        var standings = (await StandingsAsync(db, cancellationToken)).ToDictionary(s => s.SumpId);
        var flags = (await FlagsAsync(db, cancellationToken)).ToLookup(f => f.SumpId);
        var people = await OpenWorkQuery.PeopleAsync(db, cancellationToken);
        var names = people.ToDictionary(p => p.Person.Id, p => p.Person);
        var tasks = (await TasksAsync(db, cancellationToken)).ToLookup(t => t.SumpId);

        var answers = await FlagAnswers.OfAsync(db, flags.SelectMany(f => f).Where(f => f.EscalatedAtUtc is not null), cancellationToken);
        var skips = await StopSkip.OfDayAsync(db, setup.Calendar.ShopDayOf(now), cancellationToken);
        var keepAways = await KeepAwayQuery.OfAllAsync(db, now, cancellationToken);
        var prices = await SumpPriority.PricesAsync(db, cancellationToken);

        var rows = setup.Sumps.Where(s => !s.IsRetired && (filter.AreaId is null || s.AreaId == filter.AreaId))
            .Select(s => Row(s, setup, standings.GetValueOrDefault(s.Id), flags[s.Id], [.. tasks[s.Id]], names, answers.LastOn(s.Id), now) with
            {
                Skip = Holding(skips, s.Id, standings.GetValueOrDefault(s.Id)?.LastReadAtUtc),
                KeepAway = keepAways.GetValueOrDefault(s.Id),
                Priority = SumpPriority.Of(setup, s, standings.GetValueOrDefault(s.Id)?.Facts, standings.GetValueOrDefault(s.Id)?.VolumeLitres, prices, now),
            })
            .ToList();
        var counts = Counts(rows, setup.Calendar.ShopDayOf(now));
        var last = setup.Calendar.ShopDayOf(now).AddDays(DaysShown - 1);
        var wanted = rows.Where(r => IsWanted(r, filter, last)).ToList();
        return new(
            now,
            setup,
            Days(setup.Calendar, now),
            NextClosure(setup.Calendar, setup.Calendar.ShopDayOf(now)),
            counts,
            [.. wanted.Where(r => !r.IsQuiet || filter.AsksForWork || filter.Show is SumpState.InRange)
                .OrderBy(r => r.Standing.State)
                .ThenBy(r => r.UnansweredSinceUtc is null)
                .ThenBy(r => r.Priority, WorkPriority.MostUrgentFirst)
                .ThenBy(r => r.Tasks.Count == 0 ? DateTime.MaxValue : r.Tasks[0].DueAtUtc)],
            filter.AsksForWork || filter.Show is SumpState.InRange ? [] : [.. wanted.Where(r => r.IsQuiet)],
            [.. people.Where(p => p.CanWork).Select(p => p.Person)])
        {
            ShopFlags = filter == new BoardFilter() ? await ShopFlagsQuery.OpenAsync(db, setup, cancellationToken) : [],
        };
    }

    private Task<IReadOnlyList<Standing>> StandingsAsync(ShopFluidsDbContext db, CancellationToken cancellationToken)
    {
        var all = db.Standings.AsNoTracking();
        return _standings.OfAsync(_standingVersions(db), ids => (ids is null ? all : all.Where(s => ids.Contains(s.SumpId))).AsAsyncEnumerable(), cancellationToken);
    }

    private Task<IReadOnlyList<Flag>> FlagsAsync(ShopFluidsDbContext db, CancellationToken cancellationToken)
    {
        var open = db.Flags.AsNoTracking().Where(f => f.EndedAtUtc == null);
        return _flags.OfAsync(_flagVersions(db), ids => (ids is null ? open : open.Where(f => ids.Contains(f.Id))).AsAsyncEnumerable(), cancellationToken);
    }

    private Task<IReadOnlyList<CareTask>> TasksAsync(ShopFluidsDbContext db, CancellationToken cancellationToken)
    {
        var open = db.CareTasks.AsNoTracking().Where(t => t.State == TaskState.Open);
        return _tasks.OfAsync(_taskVersions(db), ids => (ids is null ? open : open.Where(t => ids.Contains(t.Id))).AsAsyncEnumerable(), cancellationToken);
    }

    private static StopSkip? Holding(Dictionary<Guid, StopSkip> skips, Guid sumpId, DateTime? lastReadAtUtc) =>
        skips.TryGetValue(sumpId, out var skip) && skip.HoldsAfter(lastReadAtUtc) ? skip : null;

    // What the board shows of work is what is late or comes in its days: a sump whose work lies behind them would be a row without it.
    private static bool IsWanted(BoardRow row, BoardFilter filter, DateOnly last) =>
        (filter.Show is null || (filter.Show == SumpState.Overdue ? row.Tasks.Any(t => t.IsLate) : row.Standing.State == filter.Show))
        && (!filter.AsksForWork || row.Tasks.Any(t => t.VisitDay <= last && (filter.Kind is null || t.Kind == filter.Kind) && (filter.PersonId is null || t.Who?.Id == filter.PersonId)));

    private static BoardRow Row(
        Sump sump, ShopSetup setup, Standing? standing, IEnumerable<Flag> flags, IReadOnlyCollection<CareTask> tasks, Dictionary<Guid, BoardPerson> names, DateTime? answeredAt, DateTime now)
    {
        var work = OpenWorkQuery.Tasks(tasks, names, setup, sump.Id, now);
        return new(
            sump.Id,
            sump.Tag,
            sump.AreaId,
            [.. setup.MachinesOf(sump).Select(m => new BoardMachine(m.Tag, m.Name))],
            SumpStanding.Of(standing?.ChargeId is null ? null : standing.Facts, now),
            setup.OpenCharge(sump.Id)?.FilledAtUtc,
            standing?.LastReadAtUtc,
            OpenWorkQuery.Flags(flags, standing?.Facts, answeredAt),
            work)
        {
            DaysToNext = work.Count == 0 ? null : work[0].DueDay.DayNumber - setup.Calendar.ShopDayOf(now).DayNumber,
        };
    }

    private static BoardCounts Counts(List<BoardRow> rows, DateOnly today) => new(
        rows.Count(r => r.Standing.State == SumpState.Action),
        rows.Count(r => r.Standing.State == SumpState.Warning),
        rows.Sum(r => r.Tasks.Count(t => t.IsLate)),
        rows.Count(r => r.Standing.State == SumpState.NotMeasured),
        rows.Count(r => r.Standing.State == SumpState.InRange),
        rows.Count(r => r.Tasks.Any(t => t.IsLate || t.DueDay <= today)));

    private static List<BoardDay> Days(ShopCalendar calendar, DateTime now)
    {
        var today = calendar.ShopDayOf(now);
        return [.. Enumerable.Range(0, DaysShown).Select(n => today.AddDays(n)).Select(d => new BoardDay(d, calendar.IsOpen(d)))];
    }

    // To its last day, also where that lies beyond the strip.
    private static ClosedDays? NextClosure(ShopCalendar calendar, DateOnly today)
    {
        var first = Enumerable.Range(1, DaysShown - 1).Select(today.AddDays).Where(d => !calendar.IsOpen(d)).Select(d => (DateOnly?)d).FirstOrDefault();
        return first is { } from ? new(from, Enumerable.Range(0, MostClosedDays).Select(from.AddDays).TakeWhile(d => !calendar.IsOpen(d)).Last()) : null;
    }

    private sealed record Kept(long Sequence, ShopBoard Board);
}
