using System.Globalization;
using ShopFluids.Core.Stores;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Stores;

/// <summary>Use and cost, month by month, as they are shown.</summary>
public sealed class UseView(IReadOnlyList<MonthUse> months, DeskWords words)
{
    private readonly decimal _most = months.Select(m => m.ConcentrateLitres).DefaultIfEmpty().Max();

    public IReadOnlyList<MonthUse> Months => months;

    public string Month(MonthUse use) => use.Month.ToString("MMM yyyy", words.Format.Culture);

    public string FluidOf(MonthUse use) => words.Setup.Fluid(use.FluidId).Name;

    public string Volume(decimal litres) => words.Format.Volume((double)litres);

    public string Cost(MonthUse use) => use.UnpricedLitres > 0
        ? words.Format.Say(Texts.Stores_CostBut, Money(use), Volume(use.UnpricedLitres))
        : Money(use);

    /// <summary>The concentrate of a month beside the most of any, 0 to 100.</summary>
    public string BarOf(MonthUse use) => (_most <= 0 ? 0 : 100 * use.ConcentrateLitres / _most).ToString("0.##", CultureInfo.InvariantCulture);

    private string Money(MonthUse use) => words.Format.Money(use.Cost, words.Setup.Site?.Currency ?? "");
}
