using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Shared;

namespace ShopFluids.Web.Pages.Bench.Pictures;

/// <summary>Amounts as bars from one edge, the longest across the drawing.</summary>
public sealed class BarsLayout
{
    public const double Width = 560;
    private const double BarsWidth = 420;
    private const double CloseRowHeight = 48;
    private const double RowHeight = 58;

    public BarsLayout(BenchBars picture, ShopFormat format)
        : this(picture, format, BarsWidth, RowHeight)
    {
    }

    /// <summary>Bars of another length, for beside another picture.</summary>
    public BarsLayout(BenchBars picture, ShopFormat format, double barsWidth)
        : this(picture, format, barsWidth, CloseRowHeight)
    {
    }

    private BarsLayout(BenchBars picture, ShopFormat format, double barsWidth, double rowHeight)
    {
        ArgumentNullException.ThrowIfNull(picture);
        ArgumentNullException.ThrowIfNull(format);
        var longest = Math.Max(picture.Bars.Max(b => Math.Abs(b.Value)), double.Epsilon);
        Height = (picture.Bars.Count * rowHeight) + 14;
        Bars = [.. picture.Bars.Select((b, i) =>
        {
            var top = 24 + (i * rowHeight);
            var length = barsWidth * Math.Abs(b.Value) / longest;
            return new DrawnBar(b.Name, format.Quantity(b.Value, picture.Unit, b.Decimals), Svg.Number(top - 6), Svg.Number(top), Svg.Number(length), Svg.Number(length + 10), Svg.Number(top + 14), i % 2 == 0 ? "h-carry" : "h-evap");
        })];
    }

    public double Height { get; }

    public IReadOnlyList<DrawnBar> Bars { get; }
}

public sealed record DrawnBar(string Name, string Words, string NameY, string Y, string Length, string WordsX, string WordsY, string Look);
