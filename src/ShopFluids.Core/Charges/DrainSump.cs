using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Live;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Charges;

/// <summary>
/// Ends a charge: its fluid is drained, its flags end with it, and corrective work that only they asked for goes. Draining that the plan
/// or a flag asked for is done by it.
/// </summary>
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
            return await SameContent.IsDrainAsync(db, known, setup.FindSump(command.SumpTag), command, cancellationToken) ? new DrainedSump(known.ChargeId) : new OtherContentForId(command.RemovalId);
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
        var latest = await ChargeEnd.LatestEntryAsync(db, charge, cancellationToken);
        if (command.DrainedAtUtc > now + ReadingChecks.AllowedClockSkew)
        {
            errors.Add(new("drainedAt", FieldProblem.InTheFuture));
        }
        else if (command.DrainedAtUtc < latest)
        {
            errors.Add(new("drainedAt", latest == charge.FilledAtUtc ? FieldProblem.BeforeTheFill : FieldProblem.BeforeTheLastEntry, EarliestUtc: latest));
        }

        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        await new ChargeEnd(write, setup, clock).EndAsync(sump, charge, new(command.RemovalId, command.DrainedAtUtc, command.DrainedLitres), actor, cancellationToken);
        await write.CommitAsync(new Act(ActCodes.ChargeDrained, actor, now, sump.Tag), cancellationToken);
        news.Publish(sump.Id);
        return new DrainedSump(charge.Id);
    }
}
