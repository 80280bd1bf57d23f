using ShopFluids.Calculations.Mixing;

namespace ShopFluids.Core.Charges;

/// <summary>What about an addition is so unusual that whoever notes it is asked once whether it was so.</summary>
public enum AdditionDoubt
{
    /// <summary>Concentrate went in without water: neat, it does not mix.</summary>
    NeatConcentrate = 0,

    /// <summary>The recipe takes out first, and nothing is noted as taken out.</summary>
    NothingTakenOut = 1,

    /// <summary>The sump would stand above its full mark: what drains back when the pump stops may spill.</summary>
    OverTheMark = 2,
}

/// <summary>Doubts about an addition. What was done is stored all the same: the record says what happened, not what should have. Common practice, no source.</summary>
public static class AdditionDoubts
{
    // What nobody reads off a level.
    private const double SlightLitres = 0.5;

    /// <summary>The doubts, the most important first; empty for what nobody need be asked about.</summary>
    /// <param name="amounts">What is noted.</param>
    /// <param name="recipe">The recipe that it answers; null where there is none, or where it was followed already.</param>
    /// <param name="heldLitres">What the sump holds before, L; null where nobody knows.</param>
    /// <param name="fullLitres">What it holds at the full mark, L.</param>
    /// <param name="brimLitres">What it holds at the brim, L: beyond it nobody is asked, because it is refused.</param>
    public static IReadOnlyList<AdditionDoubt> Of(HandledAmounts amounts, TopUpRecipe? recipe, double? heldLitres, double fullLitres, double brimLitres)
    {
        var doubts = new List<AdditionDoubt>();
        var poured = amounts.WaterLitres + amounts.ConcentrateLitres;
        if (amounts is { ConcentrateLitres: > 0, WaterLitres: 0 } && recipe is not { ConcentrateLitres: > 0, WaterLitres: 0 })
        {
            doubts.Add(AdditionDoubt.NeatConcentrate);
        }

        if (poured > 0 && amounts.RemovedLitres <= 0 && recipe is { RemoveLitres: > 0 })
        {
            doubts.Add(AdditionDoubt.NothingTakenOut);
        }

        // A recipe that cannot but end above the mark has said so.
        if (poured > 0 && heldLitres - amounts.RemovedLitres + poured is { } then && then <= brimLitres && then > Math.Max(fullLitres, recipe?.ExpectedLitres ?? 0) + SlightLitres)
        {
            doubts.Add(AdditionDoubt.OverTheMark);
        }

        return doubts;
    }
}
