using Microsoft.EntityFrameworkCore;
using ShopFluids.Calculations.Mixing;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;

namespace ShopFluids.Core.Exchange;

public sealed record ListedTask(
    Guid Id,
    string SumpTag,
    TaskKind Kind,
    string Cause,
    TaskState State,
    DateTime DueAtUtc,
    DateTime CreatedAtUtc,
    string? AssignedTo,
    TopUpRecipe? Recipe,
    DateTime? EndedAtUtc,
    string? EndReason,
    WorkFind? Found);

/// <summary>Tasks of all sumps, the earliest due first.</summary>
public sealed class TasksQuery(ShopDatabase database, SetupCache setups)
{
    public async Task<ListPage<ListedTask>> RunAsync(TaskState state, ListPlace? after, int limit, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        var tasks = db.CareTasks.AsNoTracking().Where(t => t.State == state);
        if (after is not null)
        {
            tasks = tasks.Where(t => t.DueAtUtc > after.AtUtc || (t.DueAtUtc == after.AtUtc && t.Id.CompareTo(after.Id) > 0));
        }

        var rows = await tasks.OrderBy(t => t.DueAtUtc).ThenBy(t => t.Id).Take(limit + 1)
            .Select(t => new { Task = t, AssignedTo = db.Users.Where(p => p.Id == t.AssignedToId).Select(p => p.DisplayName).FirstOrDefault() })
            .ToListAsync(cancellationToken);
        return ListPlace.Cut(
            rows.ConvertAll(r => new ListedTask(
                r.Task.Id,
                setup.FindSump(r.Task.SumpId)?.Tag ?? "",
                r.Task.Kind,
                r.Task.Cause,
                r.Task.State,
                r.Task.DueAtUtc,
                r.Task.CreatedAtUtc,
                r.AssignedTo,
                r.Task.Recipe,
                r.Task.EndedAtUtc,
                r.Task.EndReason,
                r.Task.Found)),
            limit,
            t => new ListPlace(t.DueAtUtc, t.Id));
    }
}

public sealed record ListedFlag(
    Guid Id,
    string SumpTag,
    string Rule,
    string Parameter,
    Verdict Severity,
    Direction Direction,
    IReadOnlyDictionary<string, decimal> Numbers,
    DateTime RaisedAtUtc,
    Guid? ReadingId,
    DateTime? EndedAtUtc,
    string? EndReason,
    int RuleVersion,
    Guid? LimitSetId,
    IReadOnlyDictionary<string, decimal>? Tuning,
    DateTime? EscalatedAtUtc);

/// <summary>Flags of all sumps, the latest raised first.</summary>
public sealed class FlagsQuery(ShopDatabase database, SetupCache setups)
{
    public async Task<ListPage<ListedFlag>> RunAsync(bool isOpen, ListPlace? after, int limit, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        var flags = db.Flags.AsNoTracking().Where(f => (f.EndedAtUtc == null) == isOpen);
        if (after is not null)
        {
            flags = flags.Where(f => f.RaisedAtUtc < after.AtUtc || (f.RaisedAtUtc == after.AtUtc && f.Id.CompareTo(after.Id) < 0));
        }

        var rows = await flags.OrderByDescending(f => f.RaisedAtUtc).ThenByDescending(f => f.Id).Take(limit + 1).ToListAsync(cancellationToken);
        return ListPlace.Cut(
            rows.ConvertAll(f => new ListedFlag(f.Id, setup.FindSump(f.SumpId)?.Tag ?? "", f.Rule, f.Parameter, f.Severity, f.Direction, f.Numbers, f.RaisedAtUtc, f.ReadingId, f.EndedAtUtc, f.EndReason, f.RuleVersion, f.LimitSetId, f.Tuning, f.EscalatedAtUtc)),
            limit,
            f => new ListPlace(f.RaisedAtUtc, f.Id));
    }
}
