using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Sheets;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Charts;
using ShopFluids.Web.Components.Shared;

namespace ShopFluids.Web.Pages.Sumps;

/// <summary>A trend as the printed sheet draws it, styled by the style sheet.</summary>
public sealed partial class TrendChart
{
    private string _id = "";

    [Parameter, EditorRequired]
    public required Trend Trend { get; set; }

    [Parameter, EditorRequired]
    public required ChartDrawing Drawing { get; set; }

    [Parameter, EditorRequired]
    public required ShopFormat Format { get; set; }

    [Inject]
    public required ShopClock Clock { get; init; }

    private IEnumerable<TrendPoint> Newest => Trend.Points.OrderByDescending(p => p.AtUtc);

    private string Description
    {
        get
        {
            var standing = Trend.Points.Where(p => !p.IsSuperseded).OrderBy(p => p.AtUtc).ToList();
            if (standing.Count == 0)
            {
                return Texts.Sump_ChartEmpty;
            }

            string Number(double value) => Trend.Format(value, Trend.Range.Decimals);
            return Format.Say(
                Texts.Sump_ChartDescription,
                Format.Count(standing.Count),
                Format.LongDay(standing[0].AtUtc),
                Format.LongDay(standing[^1].AtUtc),
                Number(standing.Min(p => p.Value)),
                Number(standing.Max(p => p.Value)),
                Number(standing[^1].Value),
                Sentences.Verdict(standing[^1].Verdict, standing[^1].Direction));
        }
    }

    protected override void OnInitialized() => _id = $"chart-{Clock.NewId():N}";

    private static string Points(IReadOnlyList<ChartPoint> points) => string.Join(' ', points.Select(p => $"{Svg.Number(p.X)},{Svg.Number(p.Y)}"));

    // The markup language of the page keeps the name of this element for itself.
    private static MarkupString Label(ChartText text)
    {
        var anchor = text.Anchor switch
        {
            ChartAnchor.Middle => "middle",
            ChartAnchor.End => "end",
            _ => "start",
        };
        return new($"<text class=\"{text.Class}\" x=\"{Svg.Number(text.X)}\" y=\"{Svg.Number(text.Y)}\" text-anchor=\"{anchor}\">{HtmlEncoder.Default.Encode(text.Text)}</text>");
    }

    private static string Symbol(Printing.Charts.VerdictMark mark) => mark switch
    {
        Printing.Charts.VerdictMark.InRange => "ok",
        Printing.Charts.VerdictMark.WarningHigh => "warn-hi",
        Printing.Charts.VerdictMark.WarningLow => "warn-lo",
        Printing.Charts.VerdictMark.Action => "act",
        Printing.Charts.VerdictMark.ActionHigh => "act-hi",
        Printing.Charts.VerdictMark.ActionLow => "act-lo",
        Printing.Charts.VerdictMark.Late => "late",
        _ => "none",
    };
}
