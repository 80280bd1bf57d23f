using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Live;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Doses;

/// <summary>Strikes out a dose that was noted by mistake; only for supervisors. Work of the plan that it had done falls due again.</summary>
/// <param name="Id">Made by the sender; sending it twice strikes out once.</param>
public sealed record StrikeDose(Guid Id, Guid DoseId, string Reason);

/// <param name="IsNew">False when it was struck out before by the same command.</param>
public sealed record StruckDose(Guid DoseId, string SumpTag, bool IsNew);

public sealed record DoseNotFound(Guid Id) : Error;

/// <summary>It was struck out before, by another command.</summary>
public sealed record DoseStruckAlready(Guid Id) : Error;

public sealed class StrikeDoseHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news)
{
    public async Task<Result<StruckDose>> HandleAsync(StrikeDose command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        ArgumentNullException.ThrowIfNull(actor);
        command = command with { Reason = command.Reason.Trim() };
        var errors = new List<FieldError>();
        if (command.Id == Guid.Empty)
        {
            errors.Add(new(FieldNames.Id, FieldProblem.Missing));
        }

        TextChecks.Check(errors, DoseFields.StrikeReason, command.Reason, DoseStrike.MaximumReasonLength);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        var setup = await setups.ForAsync(write, cancellationToken);
        if (await db.Doses.AsNoTracking().FirstOrDefaultAsync(d => d.Id == command.DoseId, cancellationToken) is not { } dose || setup.FindSump(dose.SumpId) is not { } sump)
        {
            return new DoseNotFound(command.DoseId);
        }

        var strikes = await db.DoseStrikes.AsNoTracking().Where(s => s.Id == command.Id || s.DoseId == dose.Id).ToListAsync(cancellationToken);
        if (strikes.Find(s => s.Id == command.Id) is { } known)
        {
            return (known.DoseId, known.Reason) == (dose.Id, command.Reason) ? new StruckDose(dose.Id, sump.Tag, IsNew: false) : new OtherContentForId(command.Id);
        }

        if (strikes.Count > 0)
        {
            return new DoseStruckAlready(dose.Id);
        }

        var now = clock.UtcNow;
        db.Add(new DoseStrike(command.Id, dose.Id, command.Reason, now, actor.PersonId));
        await DoseWork.AskAgainAsync(db, setup, clock, dose, cancellationToken);
        await write.FlushAsync(cancellationToken);
        await StandingKeeper.RefreshAsync(write, sump, cancellationToken);
        await write.CommitAsync(new Act(ActCodes.DoseStruck, actor, now, sump.Tag), cancellationToken);
        news.Publish(sump.Id);
        return new StruckDose(dose.Id, sump.Tag, IsNew: true);
    }
}
