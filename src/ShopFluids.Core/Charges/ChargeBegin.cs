using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Charges;

/// <summary>Concentrate that goes into a fill, from a lot that was checked.</summary>
/// <param name="Lot">Null where no concentrate is drawn.</param>
internal sealed record LotPour(LotDraw? Lot, decimal Litres);

/// <summary>What the fill of a charge brings with it, within a write: concentrate is drawn, and what is due after a fill begins.</summary>
internal sealed class ChargeBegin(ShopWrite write, ShopSetup setup, ShopClock clock)
{
    /// <param name="pours">One addition for each; the water goes with the first.</param>
    public async Task BeginAsync(Sump sump, Charge charge, decimal waterLitres, IReadOnlyList<LotPour> pours, Actor actor, CancellationToken cancellationToken)
    {
        var db = write.Database;
        db.Add(charge);
        for (var i = 0; i < pours.Count; i++)
        {
            var (lot, litres) = pours[i];
            lot?.Lot.Draw(litres);
            db.Add(new Addition(clock.NewId(), charge.Id, charge.FilledAtUtc, i == 0 ? waterLitres : 0, litres, lot?.Lot.Id, null, actor.PersonId ?? Guid.Empty, lot?.OverrideReason));
        }

        await write.FlushAsync(cancellationToken);
        await new CarePlanner(db, setup, clock).PlanMissingAsync(sump.Id, cancellationToken, isFilled: true);
        await StandingKeeper.RefreshAsync(write, sump, cancellationToken);
    }
}
