using ShopFluids.Core.Stores;

namespace ShopFluids.Core.Wording;

/// <summary>Says what was used.</summary>
public static class UseSentences
{
    /// <summary>The cost of concentrate, and what it leaves out where a lot has no price.</summary>
    public static string CostOf(this ShopFormat format, IReadOnlyCollection<MonthUse> use, string currency)
    {
        ArgumentNullException.ThrowIfNull(format);
        var (cost, unpriced) = (format.Money(use.Sum(u => u.Cost), currency), use.Sum(u => u.UnpricedLitres));
        return unpriced == 0 ? cost : format.Say(Texts.Stores_CostBut, cost, format.Volume((double)unpriced));
    }
}
