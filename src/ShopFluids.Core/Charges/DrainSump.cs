using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Live;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules;

namespace ShopFluids.Core.Charges;

/// <summary>Ends a charge: its fluid is drained, its flags end with it, and corrective work that only they asked for goes.</summary>
public sealed record DrainSump(Guid RemovalId, string SumpTag, DateTime DrainedAtUtc, decimal DrainedLitres);

public sealed record DrainedSump(Guid ChargeId);

public sealed class DrainSumpHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news)
{
    public async Task<Result<DrainedSump>> HandleAsync(DrainSump command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        var setup = await setups.ForAsync(write, cancellationToken);
        if (await db.Removals.FirstOrDefaultAsync(r => r.Id == command.RemovalId, cancellationToken) is { } known)
        {
            return new DrainedSump(known.ChargeId);
        }

        if (setup.FindSump(command.SumpTag) is not { } sump)
        {
            return new SumpNotFound(command.SumpTag);
        }

        var charge = await db.Charges.FirstOrDefaultAsync(c => c.SumpId == sump.Id && c.DrainedAtUtc == null, cancellationToken);
        if (charge is null)
        {
            return new NoOpenCharge(sump.Tag);
        }

        var now = clock.UtcNow;
        var errors = new List<FieldError>();
        AmountChecks.Check(errors, "drainedLitres", command.DrainedLitres);
        var latest = await db.Readings.Where(r => r.ChargeId == charge.Id).MaxAsync(r => (DateTime?)r.TakenAtUtc, cancellationToken);
        if (command.DrainedAtUtc > now + ReadingChecks.AllowedClockSkew)
        {
            errors.Add(new("drainedAt", FieldProblem.InTheFuture));
        }
        else if (command.DrainedAtUtc < charge.FilledAtUtc || command.DrainedAtUtc < latest)
        {
            errors.Add(new("drainedAt", FieldProblem.BeforeTheFill));
        }

        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        charge.Drain(command.DrainedAtUtc);
        db.Add(new Removal(command.RemovalId, charge.Id, command.DrainedAtUtc, command.DrainedLitres, RemovalReasons.Drain, actor.PersonId ?? Guid.Empty));
        foreach (var flag in await db.Flags.Where(f => f.SumpId == sump.Id && f.EndedAtUtc == null).ToListAsync(cancellationToken))
        {
            flag.End(FlagEnd.ChargeEnded, now);
        }

        foreach (var task in await db.CareTasks.Where(t => t.SumpId == sump.Id && t.State == TaskState.Open && t.StepId == null).ToListAsync(cancellationToken))
        {
            task.End(task.Kind == TaskKind.DrainClean ? TaskState.Done : TaskState.Withdrawn, now, task.Kind == TaskKind.DrainClean ? actor.PersonId : null);
        }

        await StandingKeeper.RefreshAsync(write, sump, cancellationToken);
        await write.CommitAsync(new Act(ActCodes.ChargeDrained, actor, now, sump.Tag), cancellationToken);
        news.Publish(sump.Id);
        return new DrainedSump(charge.Id);
    }
}
