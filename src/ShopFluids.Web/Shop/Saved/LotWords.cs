using ShopFluids.Core.Fluids;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Shop.Saved;

/// <summary>A lot in a list to choose from: its number, what it still holds, and whether it may be used.</summary>
internal static class LotWords
{
    public static string Of(LotChoice lot, ShopFormat format) => format.Say(
        lot.IsQuarantined ? Texts.Saved_LotQuarantined : lot.IsExpired ? Texts.Saved_LotExpired : Texts.Saved_LotUsable,
        lot.Number,
        format.Volume((double)lot.RemainingLitres),
        format.LongDay(lot.ExpiresOn));
}
