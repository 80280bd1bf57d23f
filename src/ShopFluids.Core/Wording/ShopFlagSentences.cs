using ShopFluids.Core.ShopFlags;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.InstrumentCheck;
using ShopFluids.Rules.Lot;

namespace ShopFluids.Core.Wording;

/// <summary>Says what was found of a lot, a stock or an instrument, and what is to be done.</summary>
public static class ShopFlagSentences
{
    public static string ShopFlag(this Sentences say, ListedShopFlag flag)
    {
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(flag);
        var days = say.Format.Say(Texts.Setup_Days, say.Format.Number(flag.Numbers.GetValueOrDefault(NumberNames.Days), 0));
        var left = say.Format.Volume((double)flag.Numbers.GetValueOrDefault(NumberNames.RemainingLitres));
        var day = flag.Day is { } known ? say.Format.LongDay(known) : "";
        return (flag.Rule, flag.Aspect) switch
        {
            (LotRule.Code, LotRule.Expired) => say.Format.Say(Texts.ShopFlag_LotExpired, flag.Subject, flag.FluidName, day, left),
            (LotRule.Code, LotRule.Quarantined) => say.Format.Say(Texts.ShopFlag_LotQuarantined, flag.Subject, flag.FluidName, left),
            (LotRule.Code, LotRule.OpenedTooLong) => say.Format.Say(Texts.ShopFlag_LotOpened, flag.Subject, flag.FluidName, days, left),
            (LotRule.Code, LotRule.LowStock) => LowStock(say, flag),
            (InstrumentCheckRule.Code, InstrumentCheckRule.Lapsed) => say.Format.Say(
                Texts.ShopFlag_InstrumentLapsed,
                flag.Subject,
                day,
                say.Format.Say(Texts.Setup_Days, say.Format.Number(flag.Numbers.GetValueOrDefault(NumberNames.EveryDays), 0))),
            (InstrumentCheckRule.Code, _) => say.Format.Say(Texts.ShopFlag_InstrumentNever, flag.Subject),
            _ => say.Format.Say(Texts.ShopFlag_Other, flag.Subject, flag.Rule),
        };
    }

    private static string LowStock(Sentences say, ListedShopFlag flag)
    {
        var (usable, needed, planned) = (Litres(flag, NumberNames.UsableLitres), Litres(flag, NumberNames.NeededLitres), Litres(flag, NumberNames.PlannedLitres));
        return planned > 0
            ? say.Format.Say(Texts.ShopFlag_LowStockRefill, flag.FluidName, say.Format.Volume(usable), say.Format.Volume(needed), say.Format.Volume(planned))
            : say.Format.Say(Texts.ShopFlag_LowStock, flag.FluidName, say.Format.Volume(usable), say.Format.Volume(needed));
    }

    private static double Litres(ListedShopFlag flag, string name) => (double)flag.Numbers.GetValueOrDefault(name);
}
