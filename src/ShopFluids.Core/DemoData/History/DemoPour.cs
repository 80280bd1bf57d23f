using ShopFluids.Calculations.Mixing;
using ShopFluids.Rules;

namespace ShopFluids.Core.DemoData.History;

/// <summary>What somebody really pours who has a recipe in hand, L.</summary>
internal sealed record DemoPour(decimal WaterLitres, decimal ConcentrateLitres, decimal RemovedLitres)
{
    /// <summary>How likely a recipe is followed where nothing else is said.</summary>
    public const double Followed = 0.95;

    /// <summary>Null where nobody pours anything.</summary>
    /// <param name="followed">How likely the recipe is followed.</param>
    /// <param name="isPlainWater">Whoever tops up pours plain water.</param>
    public static DemoPour? Of(SumpModel sump, TopUpRecipe recipe, Verdict verdict, double followed, bool isPlainWater)
    {
        var (water, concentrate, removed) = ((decimal)recipe.WaterLitres, (decimal)recipe.ConcentrateLitres, (decimal)recipe.RemoveLitres);

        // A few litres are not worth a walk, unless something is out of range.
        var isWorthIt = water + concentrate >= (decimal)sump.FullLitres * 0.05m || verdict >= Verdict.Warning;
        if (!isWorthIt || water + concentrate == 0 || !sump.Chance.Happens(followed))
        {
            return null;
        }

        // By the can instead of by the recipe, now and then.
        return isPlainWater ? new(decimal.Round(water + concentrate), 0, 0)
            : removed == 0 && sump.Chance.Happens(0.07) ? new(decimal.Max(1, decimal.Round(water / 5) * 5 - 2), concentrate, removed)
            : new(water, concentrate, removed);
    }
}
