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
    long Sequence,
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
    private readonly RowMemory<Standing> _standings = new(s => new(s.SumpId, s.Version));

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

    /// <param name="sequence">The record's last entry, read before: what is changed while the rest is read is read again next time.</param>
    public async Task<BoardRows> RunAsync(ShopFluidsDbContext db, long sequence, ShopSetup setup, DateTime nowUtc, CancellationToken cancellationToken)
    {
        var last = _last;
        var changed = last is null ? ChangedRows.Unknown : await _changes.BetweenAsync(db, last.Sequence, sequence, cancellationToken);
        var day = setup.Calendar.ShopDayOf(nowUtc);
        var flags = last is null || changed.Of<Flag>() is not { } ofFlags ? new(await db.Flags.AsNoTracking().Where(f => f.EndedAtUtc == null).ToListAsync(cancellationToken), f => f.SumpId)
            : last.Flags.With(ofFlags, await SomeAsync(db, ofFlags, _someFlags, cancellationToken), f => f.EndedAtUtc is null);
        var tasks = last is null || changed.Of<CareTask>() is not { } ofTasks ? new(await db.CareTasks.AsNoTracking().Where(t => t.State == TaskState.Open).ToListAsync(cancellationToken), t => t.SumpId)
            : last.Tasks.With(ofTasks, await SomeAsync(db, ofTasks, _someTasks, cancellationToken), t => t.State == TaskState.Open);
        var people = await _people.RunAsync(db, cancellationToken);
        var escalated = flags.All.Where(f => f.EscalatedAtUtc is not null).Select(f => f.SumpId).ToHashSet();
        var next = new BoardRows(
            sequence,
            setup,
            await _standings.OfAsync(_versions(db), ids => ids is null ? db.Standings.AsNoTracking().AsAsyncEnumerable() : _someStandings(db, [.. ids]), cancellationToken),
            last is not null && people.AreThoseOf(last.People) ? last.People : people,
            flags,
            tasks,
            escalated,
            last is not null && escalated.SetEquals(last.Escalated) && tasks.Touched?.Overlaps(escalated) == false ? last.Ended : await FlagAnswers.EndedAsync(db, escalated, cancellationToken),
            day,
            last?.Day != day || changed.Any<SkippedStop>() ? await StopSkip.SaidOnAsync(db, day, cancellationToken) : last.Skips,
            last is null || changed.Any<Dose>() || changed.Any<DoseStrike>() ? await KeepAwayQuery.DosesAsync(db, nowUtc, cancellationToken) : last.Doses,
            last is null || changed.Any<FluidLot>() ? await SumpPriority.PricesAsync(db, cancellationToken) : last.Prices,
            last?.Setup != setup || changed.Any<ShopFlag>() || changed.Any<FluidLot>() ? await ShopFlagsQuery.OpenAsync(db, setup, cancellationToken) : last.ShopFlags);
        _last = next;
        return next;
    }

    private static async Task<IReadOnlyCollection<T>> SomeAsync<T>(
        ShopFluidsDbContext db, IReadOnlyCollection<Guid> ids, Func<ShopFluidsDbContext, Guid[], IAsyncEnumerable<T>> rows, CancellationToken cancellationToken) =>
        ids.Count == 0 ? [] : await rows(db, [.. ids]).ToListAsync(cancellationToken);
}
