using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Live;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Core.Time;
using ShopFluids.Core.Tuning;

namespace ShopFluids.Core.Stores;

/// <summary>Sets what remains of a lot to what was counted, or to nothing where it was thrown away.</summary>
/// <param name="Id">Of the adjustment; the same id again is the same adjustment.</param>
/// <param name="Litres">What was counted, L, 0 to what was received; of a discarded lot nothing is read from it.</param>
/// <param name="Reason">Why, 1 to 500 characters.</param>
public sealed record AdjustLot(Guid Id, Guid LotId, AdjustmentKind Kind, decimal Litres, string Reason);

public sealed class AdjustLotHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news)
{
    public async Task<Result<Saved>> HandleAsync(AdjustLot command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        ArgumentNullException.ThrowIfNull(actor);
        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        var litres = command.Kind == AdjustmentKind.Discarded ? 0 : command.Litres;
        if (await db.LotAdjustments.AsNoTracking().FirstOrDefaultAsync(a => a.Id == command.Id, cancellationToken) is { } known)
        {
            return known.LotId == command.LotId && known.Kind == command.Kind && known.AfterLitres == litres ? new Saved(known.Id) : new OtherContentForId(command.Id);
        }

        if (await db.FluidLots.FirstOrDefaultAsync(l => l.Id == command.LotId, cancellationToken) is not { } lot)
        {
            return new LotNotFound(command.LotId);
        }

        var errors = new List<FieldError>();
        TextChecks.Check(errors, "reason", command.Reason, LotAdjustment.MaximumReasonLength);
        SetupFields.Range(errors, "countedLitres", litres, 0, lot.ReceivedLitres, "L");
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        if (litres == lot.RemainingLitres)
        {
            return new NothingChanged();
        }

        var now = clock.UtcNow;
        db.Add(new LotAdjustment(command.Id, lot.Id, command.Kind, lot.RemainingLitres, litres, command.Reason.Trim(), now, actor.PersonId));
        lot.SetRemaining(litres);
        await write.FlushAsync(cancellationToken);
        await NoticeShopFlagsHandler.NoticeAsync(write, await setups.ForAsync(write, cancellationToken), clock, cancellationToken);
        await write.CommitAsync(new Act(command.Kind == AdjustmentKind.Counted ? ActCodes.LotCounted : ActCodes.LotDiscarded, actor, now, lot.Number), cancellationToken);
        news.Publish(Guid.Empty);
        return new Saved(command.Id);
    }
}
