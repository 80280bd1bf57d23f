using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Live;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.CleanOuts;

/// <summary>Ends a clean-out that will not be finished: the charge stays, and the next one begins with its plan and its safety again.</summary>
public sealed record BreakOffCleanOut(Guid CleanOutId, string Reason);

public sealed record BrokenOffCleanOut(Guid CleanOutId);

public sealed class BreakOffCleanOutHandler(ShopDatabase database, ShopClock clock, ShopNews news)
{
    public async Task<Result<BrokenOffCleanOut>> HandleAsync(BreakOffCleanOut command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        ArgumentNullException.ThrowIfNull(actor);
        var errors = new List<FieldError>();
        var reason = command.Reason.Trim();
        TextChecks.Check(errors, CleanOutFields.Reason, reason, CleanOut.MaximumReasonLength);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        if (await db.CleanOuts.FirstOrDefaultAsync(c => c.Id == command.CleanOutId, cancellationToken) is not { } cleanOut)
        {
            return new CleanOutNotFound(command.CleanOutId);
        }

        if (!cleanOut.IsOpen)
        {
            // A second press of the same button is the same act.
            return cleanOut.BrokenOffReason == reason ? new BrokenOffCleanOut(cleanOut.Id) : new CleanOutIsOver(cleanOut.Id, cleanOut.ReadingId);
        }

        var now = clock.UtcNow;
        cleanOut.BreakOff(now, actor.PersonId, reason);
        var tag = await db.Sumps.AsNoTracking().Where(s => s.Id == cleanOut.SumpId).Select(s => s.Tag).SingleAsync(cancellationToken);
        await write.CommitAsync(new Act(ActCodes.CleanOutBrokenOff, actor, now, tag), cancellationToken);
        news.Publish(cleanOut.SumpId);
        return new BrokenOffCleanOut(cleanOut.Id);
    }
}
