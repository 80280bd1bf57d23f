using System.Runtime.InteropServices;

namespace ShopFluids.Calculations.Mixing;

/// <summary>Which kind of recipe was worked out.</summary>
public enum TopUpCase
{
    /// <summary>The sump is full enough and its concentration is accepted: nothing to add, nothing to remove.</summary>
    NothingToAdd = 0,

    /// <summary>Add premix. Ends on target, or short of it but accepted when even the strongest premix cannot reach the target in the room there is.</summary>
    TopUp = 1,

    /// <summary>Add the weakest premix; it still ends above the target, by <see cref="TopUpRecipe.EndsHighByPercent"/>.</summary>
    TopUpEndsHigh = 2,

    /// <summary>There is too little room for the strongest premix to reach the target: remove fluid, then add premix.</summary>
    RemoveFirst = 3,

    /// <summary>The removal that the target needs would uncover the pump; what is proposed is the nearest that can be reached, with as much removal as the pump allows, maybe none.</summary>
    NoRemovalPossible = 4,

    /// <summary>No room, and the concentration is not accepted: remove fluid and put premix back, up to the wanted volume and no higher.</summary>
    SwapAtLevel = 5,
}

/// <summary>
/// What to remove and what to add, in steps that the shop can measure, and where that leads. All expectations are worked out from the
/// rounded amounts. Concentrate is stirred into the water outside the sump, never the other way round.
/// </summary>
/// <param name="Case">Which kind of recipe this is.</param>
/// <param name="ConcentrateLitres">Concentrate for the premix, 0 L or more.</param>
/// <param name="WaterLitres">Water for the premix, 0 L or more.</param>
/// <param name="RemoveLitres">Fluid to remove before adding, 0 L or more.</param>
/// <param name="PremixPercent">Concentration of the premix of the rounded amounts, % v/v; 0 where nothing is added.</param>
/// <param name="ExpectedLitres">Volume afterwards, L; above the wanted volume only where it was so before and nothing was removed, or the pump forbade more.</param>
/// <param name="ExpectedPercent">Concentration afterwards, % v/v.</param>
/// <param name="UncertaintyPercent">Expanded uncertainty (k = 2) of the expected concentration from those of the volume and concentration before, % v/v.</param>
/// <param name="EndsHighByPercent">How far the expected concentration lies above the target where nothing better is proposed, % v/v; otherwise 0.</param>
/// <param name="RemoveForExactLitres">Removal with which the target itself would be reached, L; null where it is reached anyway or the pump would uncover.</param>
public sealed record TopUpRecipe(
    TopUpCase Case,
    double ConcentrateLitres,
    double WaterLitres,
    double RemoveLitres,
    double PremixPercent,
    double ExpectedLitres,
    double ExpectedPercent,
    double UncertaintyPercent,
    double EndsHighByPercent,
    double? RemoveForExactLitres)
{
    /// <summary>
    /// Where other amounts lead than those of the recipe: mass balance of a well-mixed sump with additive volumes. What is known of the sump before is what the
    /// recipe was worked out from.
    /// </summary>
    /// <param name="amounts">In the order in which they were handled; each takes out before it pours in.</param>
    /// <returns>Volume, L, and concentration, % v/v; 0 % where nothing is in the sump.</returns>
    public (double Litres, double Percent) After(IEnumerable<HandledAmounts> amounts)
    {
        ArgumentNullException.ThrowIfNull(amounts);
        var left = ExpectedLitres - WaterLitres - ConcentrateLitres;
        var (litres, percent) = (left + RemoveLitres, left > 0 ? Math.Clamp(((ExpectedLitres * ExpectedPercent) - (100 * ConcentrateLitres)) / left, 0, 100) : 0);
        foreach (var handled in amounts)
        {
            (litres, percent) = handled.MixedInto(litres, percent);
        }

        return (litres, percent);
    }
}

/// <summary>What somebody really took out of a sump and then poured in, L, each 0 or more.</summary>
/// <param name="RemovedLitres">Mix taken out.</param>
/// <param name="WaterLitres">Water poured in.</param>
/// <param name="ConcentrateLitres">Concentrate poured in.</param>
[StructLayout(LayoutKind.Auto)]
public readonly record struct HandledAmounts(double RemovedLitres, double WaterLitres, double ConcentrateLitres)
{
    /// <summary>What a well-mixed sump comes to when this is taken out and then poured in: mass balance with additive volumes.</summary>
    /// <param name="litres">What is in it, L, 0 or more; where less than is taken out, all of it goes.</param>
    /// <param name="percent">Its concentration, % v/v, 0 to 100.</param>
    /// <returns>Volume, L, and concentration, % v/v; 0 % where nothing is in the sump.</returns>
    public (double Litres, double Percent) MixedInto(double litres, double percent)
    {
        var stays = Math.Max(0, litres - RemovedLitres);
        var then = stays + WaterLitres + ConcentrateLitres;
        return (then, then > 0 ? ((stays * percent) + (100 * ConcentrateLitres)) / then : 0);
    }
}
