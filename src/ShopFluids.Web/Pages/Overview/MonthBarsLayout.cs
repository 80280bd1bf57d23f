using ShopFluids.Web.Components.Shared;

namespace ShopFluids.Web.Pages.Overview;

/// <summary>Bars that stand on one line, the highest as high as the drawing has room.</summary>
internal static class MonthBarsLayout
{
    // About as wide as it stands on the page, so that its words keep their size.
    public const double Width = 680;
    public const double Height = 170;
    public const double Bottom = 148;

    // Room for the title and for the number over the highest bar.
    private const double Highest = 44;
    private const double ShareOfBar = 0.62;

    public static IReadOnlyList<DrawnMonth> Of(IReadOnlyList<MonthBar> bars)
    {
        var most = Math.Max(bars.Select(b => b.Value).DefaultIfEmpty(0).Max(), double.Epsilon);
        var room = Width / Math.Max(1, bars.Count);
        return [.. bars.Select((bar, n) =>
        {
            var height = (Bottom - Highest) * bar.Value / most;
            var middle = (n + 0.5) * room;
            var width = room * ShareOfBar;
            return new DrawnMonth(
                bar.Month, bar.Words, Svg.Number(middle - (width / 2)), Svg.Number(Bottom - height), Svg.Number(width), Svg.Number(height), Svg.Number(middle), Svg.Number(Bottom - height - 5), Svg.Number(Bottom + 15));
        })];
    }
}

/// <summary>A bar as the drawing wants it.</summary>
internal sealed record DrawnMonth(string Month, string Words, string X, string Y, string Width, string Height, string Middle, string WordsY, string MonthY);
