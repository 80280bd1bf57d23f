using ShopFluids.Calculations.Mixing;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Charges;

/// <summary>What about an addition is so unusual that whoever notes it is asked once whether it was so.</summary>
/// <param name="Kind">As it is kept with the addition.</param>
public abstract record AdditionDoubt(UnusualAddition Kind);

/// <summary>Concentrate went in without water: neat, it does not mix.</summary>
/// <param name="Litres">How much, L.</param>
public sealed record NeatConcentrate(double Litres) : AdditionDoubt(UnusualAddition.Neat);

/// <summary>The recipe takes out first, and nothing is noted as taken out.</summary>
/// <param name="AskedLitres">How much it takes out, L.</param>
public sealed record NothingTakenOut(double AskedLitres) : AdditionDoubt(UnusualAddition.NothingTakenOut);

/// <summary>The sump would stand above its full mark: what drains back when the pump stops may spill.</summary>
/// <param name="Litres">What it would hold, L.</param>
/// <param name="OverLitres">By how much that is above the mark, L.</param>
public sealed record OverTheMark(double Litres, double OverLitres) : AdditionDoubt(UnusualAddition.OverTheMark);

/// <summary>The mixture would come to more than the action limit, from a concentration within it: ten times the concentrate is one key beside the right one.</summary>
/// <param name="Percent">What it would come to, % v/v.</param>
/// <param name="MostPercent">The limit, % v/v.</param>
public sealed record TooStrong(double Percent, double MostPercent) : AdditionDoubt(UnusualAddition.TooStrong);

/// <summary>A mixture before something is added, and its action limit.</summary>
/// <param name="Percent">Its concentration, % v/v.</param>
/// <param name="MostPercent">The upper action limit of concentration, % v/v.</param>
public sealed record MixtureBefore(double Percent, double MostPercent);

/// <summary>Somebody is to be asked before this is stored.</summary>
public sealed record AdditionDoubted(IReadOnlyList<AdditionDoubt> Doubts) : Error;

/// <summary>Doubts about an addition. What was done is stored all the same: the record says what happened, not what should have. Common practice, no source.</summary>
public static class AdditionDoubts
{
    /// <summary>What nobody reads off a level, L.</summary>
    public const double SlightLitres = 0.5;

    /// <summary>The doubts, the most important first; empty for what nobody need be asked about.</summary>
    /// <param name="amounts">What is noted.</param>
    /// <param name="recipe">The recipe that it answers; null where there is none, or where something was moved since.</param>
    /// <param name="heldLitres">What the sump held before, L; null where nobody knows.</param>
    /// <param name="fullLitres">What it holds at the full mark, L.</param>
    /// <param name="before">The mixture in it; null where nobody knows it, or where it has no upper limit.</param>
    public static IReadOnlyList<AdditionDoubt> Of(HandledAmounts amounts, TopUpRecipe? recipe, double? heldLitres, double fullLitres, MixtureBefore? before = null)
    {
        var doubts = new List<AdditionDoubt>();
        var poured = amounts.WaterLitres + amounts.ConcentrateLitres;
        if (amounts is { ConcentrateLitres: > 0, WaterLitres: 0 } && recipe is not { ConcentrateLitres: > 0, WaterLitres: 0 })
        {
            doubts.Add(new NeatConcentrate(amounts.ConcentrateLitres));
        }

        if (poured > 0 && amounts.RemovedLitres <= 0 && recipe is { RemoveLitres: > 0 })
        {
            doubts.Add(new NothingTakenOut(recipe.RemoveLitres));
        }

        // A recipe that cannot but end above the mark has said so.
        if (poured > 0 && heldLitres - amounts.RemovedLitres + poured is { } then && then > Math.Max(fullLitres, recipe?.ExpectedLitres ?? 0) + SlightLitres)
        {
            doubts.Add(new OverTheMark(then, then - fullLitres));
        }

        if (before is { Percent: var percent, MostPercent: var most } && percent <= most && heldLitres is { } held && amounts.MixedInto(held, percent).Percent is var comesTo && comesTo > most)
        {
            doubts.Add(new TooStrong(comesTo, most));
        }

        return doubts;
    }
}
