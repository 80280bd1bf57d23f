using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Fluids;

/// <summary>May a lot be used? Never below zero, never before it was there; after expiry or in quarantine only with a supervisor's recorded reason.</summary>
internal static class LotUse
{
    public const string Field = "lot";
    public const int MaximumReasonLength = 500;

    /// <summary>The lot, tracked, or null with the reason among the errors; null without an error when no concentrate is drawn.</summary>
    public static async Task<LotDraw?> CheckAsync(
        ShopFluidsDbContext db, List<FieldError> errors, Guid? lotId, Guid fluidId, decimal litres, DateOnly day, string? overrideReason, CancellationToken cancellationToken)
    {
        if (litres == 0)
        {
            return null;
        }

        if (lotId is null)
        {
            errors.Add(new(Field, FieldProblem.Missing));
            return null;
        }

        TextChecks.Check(errors, "overrideReason", overrideReason, MaximumReasonLength, isRequired: false);

        var lot = await db.FluidLots.FirstOrDefaultAsync(l => l.Id == lotId, cancellationToken);
        if (lot is null)
        {
            errors.Add(new(Field, FieldProblem.UnknownChoice));
            return null;
        }

        if (lot.FluidId != fluidId)
        {
            errors.Add(new(Field, FieldProblem.LotOfAnotherFluid, Detail: lot.Number));
        }

        // A lot of the calendar day is there before the shop's day begins.
        if (day.AddDays(1) < lot.ReceivedOn)
        {
            errors.Add(new(Field, FieldProblem.LotNotReceived, Detail: lot.Number, FirstDay: lot.ReceivedOn));
        }

        var isAllowed = !string.IsNullOrWhiteSpace(overrideReason);
        if (lot.IsQuarantined && !isAllowed)
        {
            errors.Add(new(Field, FieldProblem.LotQuarantined, Detail: lot.Number));
        }
        else if (day > lot.ExpiresOn && !isAllowed)
        {
            errors.Add(new(Field, FieldProblem.LotExpired, Detail: lot.Number));
        }

        if (litres > lot.RemainingLitres)
        {
            errors.Add(new("concentrateLitres", FieldProblem.LotTooSmall, litres, 0, lot.RemainingLitres, "L", lot.Number));
        }

        return new LotDraw(lot, lot.IsQuarantined || day > lot.ExpiresOn ? overrideReason : null);
    }
}

/// <summary>A lot that may be drawn from.</summary>
/// <param name="OverrideReason">Why a supervisor allowed it; null for a lot that needs nobody's leave, whatever was typed.</param>
internal sealed record LotDraw(FluidLot Lot, string? OverrideReason);
