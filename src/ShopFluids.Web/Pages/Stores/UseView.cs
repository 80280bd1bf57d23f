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

    public string Month(MonthUse use) => words.Format.Month(use.Month);

    public string FluidOf(MonthUse use) => words.Setup.Fluid(use.FluidId).Name;

    public string Volume(decimal litres) => words.Format.Volume((double)litres);

    public string Cost(MonthUse use) => words.Format.CostOf([use], words.Setup.Site?.Currency ?? "");

    /// <summary>The concentrate of a month beside the most of any, 0 to 100.</summary>
    public string BarOf(MonthUse use) => (_most <= 0 ? 0 : 100 * use.ConcentrateLitres / _most).ToString("0.##", CultureInfo.InvariantCulture);
}
