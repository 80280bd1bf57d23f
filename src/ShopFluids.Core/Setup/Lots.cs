using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Record;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Setup;

/// <summary>Receives a quantity of a fluid into the stores.</summary>
public sealed record ReceiveLot(Guid Id, Guid FluidId, string Number, DateOnly ReceivedOn, DateOnly ExpiresOn, decimal Litres, decimal? PricePerLitre);

public sealed class ReceiveLotHandler(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    public async Task<Result<Saved>> HandleAsync(ReceiveLot command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        var setup = await setups.ForAsync(write, cancellationToken);
        if (await db.FluidLots.AnyAsync(l => l.Id == command.Id, cancellationToken))
        {
            return new Saved(command.Id);
        }

        var errors = new List<FieldError>();
        TextChecks.Check(errors, "number", command.Number, 60);
        SetupFields.Range(errors, "litres", command.Litres, 0.1m, 100_000, "L");
        if (command.PricePerLitre is { } price)
        {
            SetupFields.Range(errors, "pricePerLitre", price, 0, 10_000);
        }

        if (setup.Fluids.All(f => f.Id != command.FluidId))
        {
            errors.Add(new("fluid", FieldProblem.UnknownChoice));
        }

        if (command.ReceivedOn > setup.Calendar.ShopDayOf(clock.UtcNow).AddDays(1))
        {
            errors.Add(new("receivedOn", FieldProblem.InTheFuture));
        }

        if (command.ExpiresOn < command.ReceivedOn)
        {
            errors.Add(new("expiresOn", FieldProblem.NotAscending));
        }

        var key = command.Number.Trim().ToUpperInvariant();
        if (errors.Count == 0 && await db.FluidLots.AnyAsync(l => l.FluidId == command.FluidId && l.NumberKey == key, cancellationToken))
        {
            errors.Add(new("number", FieldProblem.NotUnique, Detail: command.Number));
        }

        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        db.Add(new FluidLot(command.Id, command.FluidId, command.Number.Trim(), command.ReceivedOn, command.ExpiresOn, command.Litres, command.PricePerLitre));
        await write.FlushAsync(cancellationToken);
        await NoticeShopFlagsHandler.NoticeAsync(write, setup, clock, cancellationToken);
        await write.CommitAsync(new Act(ActCodes.LotReceived, actor, clock.UtcNow, command.Number.Trim()), cancellationToken);
        return new Saved(command.Id);
    }
}

/// <summary>Puts a lot into quarantine with a reason, or (with a null reason) takes it out.</summary>
public sealed record QuarantineLot(Guid LotId, string? Reason);

public sealed record LotNotFound(Guid LotId) : Error;

public sealed class QuarantineLotHandler(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    public async Task<Result<Saved>> HandleAsync(QuarantineLot command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        var errors = new List<FieldError>();
        if (command.Reason is not null)
        {
            TextChecks.Check(errors, "reason", command.Reason, 500);
        }

        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        await using var write = await database.WriteAsync(cancellationToken);
        if (await write.Database.FluidLots.FirstOrDefaultAsync(l => l.Id == command.LotId, cancellationToken) is not { } lot)
        {
            return new LotNotFound(command.LotId);
        }

        if (command.Reason is null)
        {
            lot.Release();
        }
        else
        {
            lot.Quarantine(command.Reason.Trim());
        }

        await write.FlushAsync(cancellationToken);
        await NoticeShopFlagsHandler.NoticeAsync(write, await setups.ForAsync(write, cancellationToken), clock, cancellationToken);
        await write.CommitAsync(new Act(command.Reason is null ? ActCodes.LotReleased : ActCodes.LotQuarantined, actor, clock.UtcNow, lot.Number), cancellationToken);
        return new Saved(lot.Id);
    }
}
