using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Record;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Setup;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Core.Sumps;

namespace ShopFluids.Core.Board;

/// <summary>What the board is made of, as of an entry of the record or later.</summary>
/// <param name="Standings">By sump.</param>
/// <param name="Escalated">Sumps of which a flag went to the supervisor.</param>
/// <param name="Ended">When somebody last ended work on these.</param>
/// <param name="Skips">Said on <paramref name="Day"/>.</param>
/// <param name="Doses">After which people keep away for a time.</param>
/// <param name="Prices">Of a litre, by fluid.</param>
/// <param name="ShopFlags">Those that are open, with names of <paramref name="Setup"/>.</param>
internal sealed record BoardRows(
    RecordPlace Place,
    ShopSetup Setup,
    IReadOnlyDictionary<Guid, Standing> Standings,
    BoardPeople People,
    OpenRows<Flag> Flags,
    OpenRows<CareTask> Tasks,
    IReadOnlySet<Guid> Escalated,
    IReadOnlyDictionary<Guid, DateTime?> Ended,
    DateOnly Day,
    IReadOnlyList<SkippedStop> Skips,
    IReadOnlyList<Dose> Doses,
    IReadOnlyDictionary<Guid, decimal> Prices,
    IReadOnlyList<ListedShopFlag> ShopFlags)
{
    /// <summary>When somebody last did something about the sumps of which a flag went to the supervisor.</summary>
    public FlagAnswers Answers() => FlagAnswers.Of(
        Escalated.Where(id => Tasks.On(id).Any(t => t.AssignedToId is not null)), [.. Escalated.Select(id => Standings.GetValueOrDefault(id)).OfType<Standing>()], Ended);
}

/// <summary>Reads what the board is made of and keeps it: of what the record tells the changes of, only what was changed is read again, and of standings those of another version.</summary>
internal sealed class BoardRowsQuery
{
    private readonly ChangedRowsQuery _changes = new();
    private readonly BoardPeopleQuery _people = new();

    // Compiled once, for after each reading they are asked; a compiled query is of one model, hence no static.
    private readonly Func<ShopFluidsDbContext, IAsyncEnumerable<RowVersion>> _versions =
        EF.CompileAsyncQuery((ShopFluidsDbContext db) => db.Standings.Select(s => new RowVersion(s.SumpId, s.Version)));

    private readonly Func<ShopFluidsDbContext, Guid[], IAsyncEnumerable<Standing>> _someStandings =
        EF.CompileAsyncQuery((ShopFluidsDbContext db, Guid[] ids) => db.Standings.AsNoTracking().Where(s => ids.Contains(s.SumpId)));

    private readonly Func<ShopFluidsDbContext, Guid[], IAsyncEnumerable<Flag>> _someFlags =
        EF.CompileAsyncQuery((ShopFluidsDbContext db, Guid[] ids) => db.Flags.AsNoTracking().Where(f => ids.Contains(f.Id)));

    private readonly Func<ShopFluidsDbContext, Guid[], IAsyncEnumerable<CareTask>> _someTasks =
        EF.CompileAsyncQuery((ShopFluidsDbContext db, Guid[] ids) => db.CareTasks.AsNoTracking().Where(t => ids.Contains(t.Id)));

    private volatile BoardRows? _last;

    /// <param name="place">The record's last entry, read before: what is changed while the rest is read is read again next time.</param>
    public async Task<BoardRows> RunAsync(ShopFluidsDbContext db, RecordPlace place, ShopSetup setup, DateTime nowUtc, CancellationToken cancellationToken)
    {
        var last = _last;
        var changed = last is null ? ChangedRows.Unknown : await _changes.BetweenAsync(db, last.Place, place, cancellationToken);
        var next = last is null || changed.IsUnknown
            ? await AnewAsync(db, place, setup, nowUtc, cancellationToken)
            : await AgainAsync(db, last with { Place = place }, changed, setup, nowUtc, cancellationToken);
        _last = next;
        return next;
    }

    private async Task<BoardRows> AnewAsync(ShopFluidsDbContext db, RecordPlace place, ShopSetup setup, DateTime nowUtc, CancellationToken cancellationToken)
    {
        var day = setup.Calendar.ShopDayOf(nowUtc);
        var flags = await FlagsAsync(db, cancellationToken);
        var escalated = EscalatedOn(flags);
        return new(
            place,
            setup,
            await db.Standings.AsNoTracking().ToDictionaryAsync(s => s.SumpId, cancellationToken),
            await _people.RunAsync(db, cancellationToken),
            flags,
            await TasksAsync(db, cancellationToken),
            escalated,
            await FlagAnswers.EndedAsync(db, escalated, cancellationToken),
            day,
            await StopSkip.SaidOnAsync(db, day, cancellationToken),
            await KeepAwayQuery.DosesAsync(db, nowUtc, cancellationToken),
            await SumpPriority.PricesAsync(db, cancellationToken),
            await ShopFlagsQuery.OpenAsync(db, setup, cancellationToken));
    }

    // Whatever is new on the board and comes from another table has its line here: without it the board would not see that it was changed.
    private async Task<BoardRows> AgainAsync(ShopFluidsDbContext db, BoardRows known, ChangedRows changed, ShopSetup setup, DateTime nowUtc, CancellationToken cancellationToken)
    {
        var day = setup.Calendar.ShopDayOf(nowUtc);
        var isOtherDay = day != known.Day;
        var isOtherSetup = setup != known.Setup;
        var next = known with
        {
            Setup = setup,
            Day = day,
            Standings = await StandingsAsync(db, known.Standings, cancellationToken),
            Flags = changed.Of<Flag>() is { } flags ? known.Flags.With(flags, await SomeAsync(db, flags, _someFlags, cancellationToken), f => f.EndedAtUtc is null) : await FlagsAsync(db, cancellationToken),
            Tasks = changed.Of<CareTask>() is { } tasks ? known.Tasks.With(tasks, await SomeAsync(db, tasks, _someTasks, cancellationToken), t => t.State == TaskState.Open) : await TasksAsync(db, cancellationToken),
        };

        // Accounts stand in no record.
        var people = await _people.RunAsync(db, cancellationToken);
        if (!people.AreThoseOf(known.People))
        {
            next = next with { People = people };
        }

        var escalated = EscalatedOn(next.Flags);
        if (!escalated.SetEquals(known.Escalated) || next.Tasks.Touched?.Overlaps(escalated) != false)
        {
            next = next with { Escalated = escalated, Ended = await FlagAnswers.EndedAsync(db, escalated, cancellationToken) };
        }

        if (isOtherDay || changed.Any<SkippedStop>())
        {
            next = next with { Skips = await StopSkip.SaidOnAsync(db, day, cancellationToken) };
        }

        if (isOtherDay || changed.Any<Dose>() || changed.Any<DoseStrike>())
        {
            next = next with { Doses = await KeepAwayQuery.DosesAsync(db, nowUtc, cancellationToken) };
        }

        if (changed.Any<FluidLot>())
        {
            next = next with { Prices = await SumpPriority.PricesAsync(db, cancellationToken) };
        }

        if (isOtherSetup || changed.Any<ShopFlag>() || changed.Any<FluidLot>())
        {
            next = next with { ShopFlags = await ShopFlagsQuery.OpenAsync(db, setup, cancellationToken) };
        }

        return next;
    }

    private static async Task<OpenRows<Flag>> FlagsAsync(ShopFluidsDbContext db, CancellationToken cancellationToken) =>
        new(await db.Flags.AsNoTracking().Where(f => f.EndedAtUtc == null).ToListAsync(cancellationToken), f => f.SumpId);

    private static async Task<OpenRows<CareTask>> TasksAsync(ShopFluidsDbContext db, CancellationToken cancellationToken) =>
        new(await db.CareTasks.AsNoTracking().Where(t => t.State == TaskState.Open).ToListAsync(cancellationToken), t => t.SumpId);

    private static HashSet<Guid> EscalatedOn(OpenRows<Flag> flags) => [.. flags.All.Where(f => f.EscalatedAtUtc is not null).Select(f => f.SumpId)];

    // Derived, hence in no record: each knows its version.
    private async Task<IReadOnlyDictionary<Guid, Standing>> StandingsAsync(ShopFluidsDbContext db, IReadOnlyDictionary<Guid, Standing> known, CancellationToken cancellationToken)
    {
        var (next, changed) = (new Dictionary<Guid, Standing>(known.Count), new List<Guid>());
        await foreach (var row in _versions(db).WithCancellation(cancellationToken))
        {
            if (known.TryGetValue(row.SumpId, out var standing) && standing.Version == row.Version)
            {
                next.Add(row.SumpId, standing);
            }
            else
            {
                changed.Add(row.SumpId);
            }
        }

        foreach (var standing in await SomeAsync(db, changed, _someStandings, cancellationToken))
        {
            next.Add(standing.SumpId, standing);
        }

        return next;
    }

    private static async Task<IReadOnlyCollection<T>> SomeAsync<T>(
        ShopFluidsDbContext db, IReadOnlyCollection<Guid> ids, Func<ShopFluidsDbContext, Guid[], IAsyncEnumerable<T>> rows, CancellationToken cancellationToken) =>
        ids.Count == 0 ? [] : await rows(db, [.. ids]).ToListAsync(cancellationToken);

    private sealed record RowVersion(Guid SumpId, long Version);
}
