using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Fluids;

namespace ShopFluids.Core.CleanOuts;

/// <summary>The lots of a refill, each checked as any draw from a lot is.</summary>
internal static class RefillLots
{
    /// <summary>What is to be poured; what may not be is among the errors, at the row it was typed into.</summary>
    public static async Task<IReadOnlyList<LotPour>> CheckAsync(ShopFluidsDbContext db, List<FieldError> errors, CleanOutNote note, Guid fluidId, DateOnly day, CancellationToken cancellationToken)
    {
        var pours = new List<LotPour>();
        var draws = note.Draws ?? [];
        for (var row = 0; row < draws.Count; row++)
        {
            var found = new List<FieldError>();
            pours.Add(new(await LotUse.CheckAsync(db, found, draws[row].LotId, fluidId, draws[row].Litres, day, note.OverrideReason, cancellationToken), draws[row].Litres));
            errors.AddRange(found.Select(e => e with { Field = FieldOf(e.Field, row) }));
        }

        // Water alone is a fill too.
        return pours.Count > 0 ? pours : [new(null, 0)];
    }

    private static string FieldOf(string field, int row) => field switch
    {
        LotUse.Field => CleanOutFields.Lot(row),
        "concentrateLitres" => CleanOutFields.Concentrate(row),
        _ => field,
    };
}
