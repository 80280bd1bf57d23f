using System.Collections.Concurrent;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
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
    private readonly Func<ShopFluidsDbContext, CancellationToken, Task<RecordHead>> _head =
        EF.CompileAsyncQuery((ShopFluidsDbContext db, CancellationToken _) => db.RecordHead.AsNoTracking().Single());

    private readonly BoardRowsQuery _rows = new();
    private readonly BoardRowMaker _maker = new();
    private readonly ConcurrentDictionary<BoardFilter, Kept> _kept = new();

    // The longest shutdown that can be planned, and the week-ends around it.
    private const int MostClosedDays = PlanShutdownHandler.MostDays + 7;

    public async Task<ShopBoard> RunAsync(BoardFilter filter, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(filter);
        await using var db = await database.ReadAsync(cancellationToken);

        // Before all else: what is recorded while the rest is read is missed by this board and not by the next.
        var head = await _head(db, cancellationToken);
        var place = RecordPlace.Of(head);
        var now = clock.UtcNow;
        if (_kept.TryGetValue(filter, out var kept) && kept.Place == place && now - kept.Board.AtUtc is var age && age >= TimeSpan.Zero && age < Holds)
        {
            return kept.Board;
        }

        var setup = await setups.CurrentAsync(db, head.SetupVersion, cancellationToken);
        var board = Board(setup, await _rows.RunAsync(db, place, setup, now, cancellationToken), filter, now);
        if (_kept.Count >= MostKept)
        {
            _kept.Clear();
        }

        _kept[filter] = new(place, board);
        return board;
    }

    private ShopBoard Board(ShopSetup setup, BoardRows known, BoardFilter filter, DateTime now)
    {
        var rows = _maker.RowsOf(setup.Sumps.Where(s => !s.IsRetired && (filter.AreaId is null || s.AreaId == filter.AreaId)), known, now).ToList();
        var counts = Counts(rows, known.Day);
        var last = known.Day.AddDays(DaysShown - 1);
        var wanted = rows.Where(r => IsWanted(r, filter, last)).ToList();
        return new(
            now,
            setup,
            Days(setup.Calendar, known.Day),
            NextClosure(setup.Calendar, known.Day),
            counts,
            [.. wanted.Where(r => !r.IsQuiet || filter.AsksForWork || filter.Show is SumpState.InRange)
                .OrderBy(r => r.Standing.State)
                .ThenBy(r => r.UnansweredSinceUtc is null)
                .ThenBy(r => r.Priority, WorkPriority.MostUrgentFirst)
                .ThenBy(r => r.Tasks.Count == 0 ? DateTime.MaxValue : r.Tasks[0].DueAtUtc)],
            filter.AsksForWork || filter.Show is SumpState.InRange ? [] : [.. wanted.Where(r => r.IsQuiet)],
            known.People.WhoCanWork)
        {
            ShopFlags = filter == new BoardFilter() ? known.ShopFlags : [],
        };
    }

    // What the board shows of work is what is late or comes in its days: a sump whose work lies behind them would be a row without it.
    private static bool IsWanted(BoardRow row, BoardFilter filter, DateOnly last) =>
        (filter.Show is null || (filter.Show == SumpState.Overdue ? row.Tasks.Any(t => t.IsLate) : row.Standing.State == filter.Show))
        && (!filter.AsksForWork || row.Tasks.Any(t => t.VisitDay <= last && (filter.Kind is null || t.Kind == filter.Kind) && (filter.PersonId is null || t.Who?.Id == filter.PersonId)));

    private static BoardCounts Counts(List<BoardRow> rows, DateOnly today) => new(
        rows.Count(r => r.Standing.State == SumpState.Action),
        rows.Count(r => r.Standing.State == SumpState.Warning),
        rows.Sum(r => r.Tasks.Count(t => t.IsLate)),
        rows.Count(r => r.Standing.State == SumpState.NotMeasured),
        rows.Count(r => r.Standing.State == SumpState.InRange),
        rows.Count(r => r.Tasks.Any(t => t.IsLate || t.DueDay <= today)));

    private static List<BoardDay> Days(ShopCalendar calendar, DateOnly today) =>
        [.. Enumerable.Range(0, DaysShown).Select(today.AddDays).Select(d => new BoardDay(d, calendar.IsOpen(d)))];

    // To its last day, also where that lies beyond the strip.
    private static ClosedDays? NextClosure(ShopCalendar calendar, DateOnly today)
    {
        var first = Enumerable.Range(1, DaysShown - 1).Select(today.AddDays).Where(d => !calendar.IsOpen(d)).Select(d => (DateOnly?)d).FirstOrDefault();
        return first is { } from ? new(from, Enumerable.Range(0, MostClosedDays).Select(from.AddDays).TakeWhile(d => !calendar.IsOpen(d)).Last()) : null;
    }

    private sealed record Kept(RecordPlace Place, ShopBoard Board);
}
