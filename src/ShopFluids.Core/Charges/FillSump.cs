using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Live;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Charges;

/// <summary>Begins a charge: water and concentrate from a lot go into an empty sump.</summary>
/// <param name="ChargeId">Made by the sender; sending it twice fills once.</param>
public sealed record FillSump(
    Guid ChargeId,
    string SumpTag,
    Guid FluidId,
    DateTime FilledAtUtc,
    decimal WaterLitres,
    decimal ConcentrateLitres,
    Guid? LotId,
    string? OverrideReason = null);

public sealed record FilledSump(Guid ChargeId, int Number);

public sealed record ChargeStillOpen(string Tag) : Error;

public sealed class FillSumpHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news)
{
    public async Task<Result<FilledSump>> HandleAsync(FillSump command, Actor actor, bool isSupervisor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        var setup = await setups.ForAsync(write, cancellationToken);
        if (await db.Charges.FirstOrDefaultAsync(c => c.Id == command.ChargeId, cancellationToken) is { } known)
        {
            return await SameContent.IsFillAsync(db, known, setup.FindSump(command.SumpTag), command, cancellationToken) ? new FilledSump(known.Id, known.Number) : new OtherContentForId(command.ChargeId);
        }

        if (setup.FindSump(command.SumpTag) is not { } sump)
        {
            return new SumpNotFound(command.SumpTag);
        }

        if (sump.IsRetired)
        {
            return new SumpRetired(sump.Tag);
        }

        if (setup.OpenCharge(sump.Id) is not null)
        {
            return new ChargeStillOpen(sump.Tag);
        }

        var now = clock.UtcNow;
        var errors = new List<FieldError>();
        var volume = command.WaterLitres + command.ConcentrateLitres;
        var brim = (decimal)Math.Round(sump.Geometry.BrimLitres, 1);
        AmountChecks.Check(errors, "waterLitres", command.WaterLitres);
        AmountChecks.Check(errors, "concentrateLitres", command.ConcentrateLitres);
        if (volume <= 0 || volume > brim)
        {
            errors.Add(volume > brim
                ? AmountChecks.OverTheBrim("waterLitres", command.WaterLitres, "concentrateLitres", command.ConcentrateLitres, brim)
                : new("waterLitres", FieldProblem.OutOfRange, volume, 0.1m, brim, "L"));
        }

        if (setup.Fluids.All(f => f.Id != command.FluidId))
        {
            errors.Add(new("fluid", FieldProblem.UnknownChoice));
        }

        if (command.FilledAtUtc > now + ReadingChecks.AllowedClockSkew)
        {
            errors.Add(new("filledAt", FieldProblem.InTheFuture));
        }

        var last = await db.Charges.Where(c => c.SumpId == sump.Id).OrderByDescending(c => c.Number).FirstOrDefaultAsync(cancellationToken);
        if (last is { DrainedAtUtc: { } drained } && command.FilledAtUtc < drained)
        {
            errors.Add(new("filledAt", FieldProblem.BeforeTheDrain, EarliestUtc: drained));
        }

        var overrideReason = isSupervisor ? command.OverrideReason : null;
        var lot = await LotUse.CheckAsync(db, errors, command.LotId, command.FluidId, command.ConcentrateLitres, setup.Calendar.ShopDayOf(command.FilledAtUtc), overrideReason, cancellationToken);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        var charge = new Charge(command.ChargeId, sump.Id, command.FluidId, (last?.Number ?? 0) + 1, command.FilledAtUtc, volume);
        IReadOnlyList<LotPour> pours = [new(lot, command.ConcentrateLitres)];
        await new ChargeBegin(write, setup, clock).BeginAsync(sump, charge, command.WaterLitres, pours, actor, cancellationToken);
        await write.CommitAsync(new Act(ActCodes.ChargeFilled, actor, now, sump.Tag), cancellationToken);
        news.Publish(sump.Id);
        return new FilledSump(charge.Id, charge.Number);
    }
}
