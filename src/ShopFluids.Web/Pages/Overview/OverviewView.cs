using ShopFluids.Core.Overview;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Overview;

/// <summary>The overview with the words of the person who looks at it.</summary>
public sealed class OverviewView(ShopOverview shop, DeskWords words)
{
    private const int Top = 10;

    public ShopOverview Shop => shop;

    public ShopFormat Format => words.Format;

    public string Lead => Format.Say(Texts.Overview_Lead, Format.Count(shop.Areas.Sum(a => a.Sumps.Count)), Format.DayAndTime(shop.AtUtc));

    public string LitresTitle => Format.Say(Texts.Overview_LitresTitle, Format.VolumeUnit);

    public string CostTitle => Format.Say(Texts.Overview_CostTitle, Currency);

    public IReadOnlyList<MonthBar> LitresBars => [.. shop.Months.Select(m => new MonthBar(Month(m.Month), (double)m.ConcentrateLitres, Format.VolumeNumber((double)m.ConcentrateLitres)))];

    public IReadOnlyList<MonthBar> CostBars => [.. shop.Months.Select(m => new MonthBar(Month(m.Month), (double)m.Cost, Format.Number(m.Cost, 0)))];

    /// <summary>What the cost leaves out; null where every lot has its price.</summary>
    public string? Unpriced => shop.Months.Sum(m => m.UnpricedLitres) is > 0 and var litres ? Format.Say(Texts.Overview_Unpriced, Volume(litres)) : null;

    public string Split => Format.Say(
        Texts.Overview_Split,
        Volume(shop.Use.Sum(u => u.FillLitres)),
        Volume(shop.Use.Sum(u => u.TopUpLitres)),
        Volume(shop.Use.Sum(u => u.DrainLitres)),
        Volume(shop.Use.Sum(u => u.RemovedLitres)));

    public IReadOnlyList<RankedUse> ByLitres => Ranked(u => u.PutInLitres, u => Volume(u.PutInLitres));

    public IReadOnlyList<RankedUse> ByCost => Ranked(u => u.Cost, u => Money(u.Cost));

    public string MonthAndYear(DateOnly month) => Format.Month(month);

    public string Volume(decimal litres) => Format.Volume((double)litres);

    public string Money(decimal amount) => Format.Money(amount, Currency);

    /// <summary>Read today 14:26; read 3 days ago; that nothing was read.</summary>
    public string Age(OverviewSump sump)
    {
        ArgumentNullException.ThrowIfNull(sump);
        return sump.LastReadAtUtc is { } read ? Format.Say(Texts.Overview_Read, Format.Ago(read, shop.AtUtc)) : Texts.Overview_NeverRead;
    }

    private string Currency => words.Setup.Site?.Currency ?? "";

    private string Month(DateOnly month) => month.ToString("MMM", Format.Culture);

    private List<RankedUse> Ranked(Func<SumpUse, decimal> by, Func<SumpUse, string> write)
    {
        var ranked = shop.Use.Where(u => by(u) > 0).OrderByDescending(by).ThenBy(u => u.Tag, StringComparer.Ordinal).Take(Top).ToList();
        var most = ranked.Select(by).DefaultIfEmpty(0).Max();
        return ranked.ConvertAll(u => new RankedUse(u.Tag, write(u), (double)(by(u) / most), Volume(u.FillLitres), Volume(u.TopUpLitres), Volume(u.DrainLitres + u.RemovedLitres)));
    }
}

/// <summary>One bar of a chart.</summary>
/// <param name="Words">The number over it.</param>
public sealed record MonthBar(string Month, double Value, string Words);

/// <summary>One of the sumps that use most.</summary>
/// <param name="Share">Of the one that uses most, 0 to 1.</param>
/// <param name="Out">Drained and taken out.</param>
public sealed record RankedUse(string Tag, string Amount, double Share, string Fill, string TopUp, string Out);
