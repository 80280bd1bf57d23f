using ShopFluids.Core.Sheets;
using ShopFluids.Printing.Drawing;
using ShopFluids.Printing.Fonts;
using ShopFluids.Printing.Layout;

namespace ShopFluids.Printing.Sheets.Labels;

/// <summary>The step gauge on the refractometer's scale: the taller the step, the better the zone.</summary>
internal static class LabelGaugeDrawing
{
    private const double Title = 10.5;
    private const double Mark = 9;
    private const double Pad = 8;
    private const double InRangeGrey = 0.88;

    // Heights of the zones as on screen: target 21, in range 13, warning 7, beyond a line.
    private const double TargetStep = 12;
    private const double RangeStep = 7.5;
    private const double WarningStep = 4.2;
    private const double Beyond = 0.25;

    public static void Draw(PrintPage page, LabelGauge gauge, string title, double x, double y, double width)
    {
        var height = (Pad * 2) + Title + TargetStep + (Mark * 1.5) + 6;
        page.Stroke(PagePath.Rectangle(x, y, width, height), SheetStyle.Rule);
        page.Text(x + Pad, y + Pad + Title - 2, title, PrintFace.Bold, Title);

        var (low, high) = (gauge.Values.Min(), gauge.Values.Max());
        var span = (double)(high - low);
        var air = span <= 0 ? 1 : span * Beyond;
        double At(decimal value) => x + Pad + ((width - (2 * Pad)) * ((double)(value - low) + air) / (span + (2 * air)));
        var middle = y + Pad + Title + 6 + (TargetStep / 2);
        page.Line(x + Pad, middle, x + width - Pad, middle, SheetStyle.ThickRule);
        Step(page, gauge.ActionLow, gauge.WarningLow, At, middle, WarningStep, 1);
        Step(page, gauge.WarningHigh, gauge.ActionHigh, At, middle, WarningStep, 1);
        Step(page, gauge.WarningLow, gauge.TargetLow, At, middle, RangeStep, InRangeGrey);
        Step(page, gauge.TargetHigh, gauge.WarningHigh, At, middle, RangeStep, InRangeGrey);
        Step(page, gauge.TargetLow, gauge.TargetHigh, At, middle, TargetStep, 0);
        Marks(page, gauge, At, middle + (TargetStep / 2) + Mark + 2);
    }

    private static void Step(PrintPage page, decimal? from, decimal? to, Func<decimal, double> at, double middle, double height, double grey)
    {
        if (from is { } low && to is { } high && high > low)
        {
            var zone = PagePath.Rectangle(at(low), middle - (height / 2), at(high) - at(low), height);
            page.Fill(zone, grey);
            page.Stroke(zone, SheetStyle.Rule);
        }
    }

    // A number that would touch the one before it is left out; the target's ends come first.
    private static void Marks(PrintPage page, LabelGauge gauge, Func<decimal, double> at, double baseline)
    {
        var taken = new List<(double From, double To)>();
        foreach (var mark in gauge.Marks.OrderBy(m => m.Brix == gauge.TargetLow || m.Brix == gauge.TargetHigh ? 0 : 1))
        {
            var half = (PrintFonts.Measure(mark.Text, PrintFace.Bold, Mark) / 2) + 1;
            var place = at(mark.Brix);
            if (taken.TrueForAll(t => place + half < t.From || place - half > t.To))
            {
                page.Text(place - half + 1, baseline, mark.Text, PrintFace.Bold, Mark);
                taken.Add((place - half, place + half));
            }
        }
    }
}
