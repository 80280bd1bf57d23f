using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Live;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules;

namespace ShopFluids.Core.Flags;

/// <summary>A supervisor closes a flag with a reason; the work that only this flag asked for goes.</summary>
public sealed record CloseFlag(Guid FlagId, string Reason);

public sealed record ClosedFlag(Guid FlagId);

public sealed record FlagNotFound(Guid FlagId) : Error;

public sealed record FlagEndedAlready(Guid FlagId, DateTime EndedAtUtc) : Error;

public sealed class CloseFlagHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news)
{
    public const int MaximumReasonLength = 500;

    public async Task<Result<ClosedFlag>> HandleAsync(CloseFlag command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        var reason = command.Reason.Trim();
        var errors = new List<FieldError>();
        TextChecks.Check(errors, "reason", reason, MaximumReasonLength);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        var setup = await setups.ForAsync(write, cancellationToken);
        if (await db.Flags.FirstOrDefaultAsync(f => f.Id == command.FlagId, cancellationToken) is not { } flag || setup.FindSump(flag.SumpId) is not { } sump)
        {
            return new FlagNotFound(command.FlagId);
        }

        if (flag.EndedAtUtc is { } ended)
        {
            return new FlagEndedAlready(flag.Id, ended);
        }

        var now = clock.UtcNow;
        flag.End(FlagEnd.Closed, now, personId: actor.PersonId, reason: reason);
        var cause = $"{flag.Rule}:{flag.Parameter}";
        foreach (var task in await db.CareTasks.Where(t => t.SumpId == sump.Id && t.Cause == cause && t.State == TaskState.Open).ToListAsync(cancellationToken))
        {
            task.End(TaskState.Withdrawn, now, actor.PersonId);
        }

        await write.FlushAsync(cancellationToken);
        await AskForWorkAsync(db, setup, sump, flag, now, cancellationToken);
        await LateTestFlag.EndWhenNoneIsLateAsync(write, sump.Id, now, actor.PersonId, cancellationToken);
        await StandingKeeper.RefreshAsync(write, sump, cancellationToken);
        await write.CommitAsync(new Act(ActCodes.FlagClosed, actor, now, sump.Tag), cancellationToken);
        news.Publish(sump.Id);
        return new ClosedFlag(flag.Id);
    }

    // What was to be drained got no other work: now it does.
    private async Task AskForWorkAsync(ShopFluidsDbContext db, ShopSetup setup, Sump sump, Flag closed, DateTime now, CancellationToken cancellationToken)
    {
        var left = await db.Flags.AsNoTracking().Where(f => f.SumpId == sump.Id && f.EndedAtUtc == null).ToListAsync(cancellationToken);
        var open = await db.CareTasks.AsNoTracking().Where(t => t.SumpId == sump.Id && t.State == TaskState.Open).ToListAsync(cancellationToken);
        if (RulesService.WorkOfASparedSump(closed.ToOpen(), left.ConvertAll(f => f.ToOpen()), open.ConvertAll(t => t.ToOpen()), setup.CalendarFor(sump.Id), now) is { } asked)
        {
            db.Add(new CareTask(clock.NewId(), sump.Id, asked.Kind, asked.Cause, null, asked.DueAt, now, null, null));
        }
    }
}
