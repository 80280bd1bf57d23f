using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Sheets.Labels;
using ShopFluids.Printing.Tests.Pdf;
using UglyToad.PdfPig;
using Xunit;

namespace ShopFluids.Printing.Tests.Sheets;

public sealed class SumpLabelsPdfTests
{
    private const double PointsPerMillimetre = 72 / 25.4;
    private static readonly DateTime Printed = new(2026, 11, 25, 13, 40, 0, DateTimeKind.Utc);

    [Theory]
    [InlineData(LabelSize.Roll62, 62, 42)]
    [InlineData(LabelSize.A6, 105, 148)]
    public void Write_OneOnEachPage_HasTheSizeOfTheLabel(LabelSize size, double width, double height)
    {
        using var pdf = Open(Labels(3), size);

        Assert.Equal(3, pdf.NumberOfPages);
        Assert.All(pdf.GetPages(), p => Assert.Equal((width, height), (Math.Round(p.Width / PointsPerMillimetre), Math.Round(p.Height / PointsPerMillimetre))));
        Assert.Equal(["S-01", "S-02", "S-03"], pdf.GetPages().Select(p => string.Concat(p.Letters.OrderByDescending(l => l.PointSize).Take(4).OrderBy(l => l.Location.X).Select(l => l.Value))));
    }

    [Theory]
    [InlineData(18, 1)]
    [InlineData(19, 2)]
    public void Write_Sheet_HoldsEighteenOnAPage(int labels, int pages)
    {
        using var pdf = Open(Labels(labels), LabelSize.Sheet);

        Assert.Equal(pages, pdf.NumberOfPages);
        var text = PrintedSheet.Packed(string.Concat(pdf.GetPages().Select(p => p.Text)));
        for (var n = 1; n <= labels; n++)
        {
            Assert.Contains($"S-{n:00}", text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Write_A6_SaysMarksAimAndCaution()
    {
        using var pdf = Open(Labels(1), LabelSize.A6);
        var text = PrintedSheet.Packed(pdf.GetPage(1).Text);

        Assert.All(
            new[] { "M-01 Turning centre", "North bay", "Semi-synthetic 60", "339 mm, 160 L, pump stopped", "233 mm", "Refractometer scale: aim for 4.7 to 6.0", Texts.Label_Caution, Texts.Label_Say },
            said => Assert.Contains(PrintedSheet.Packed(said), text, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(LabelSize.Roll62)]
    [InlineData(LabelSize.A6)]
    [InlineData(LabelSize.Sheet)]
    public void Write_LongNamesAndEmptySump_StaysOnThePaper(LabelSize size)
    {
        var label = Label(1);
        var labels = Labels(0) with
        {
            Labels =
            [
                label with { Tag = "CENTRAL-SYSTEM-WEST", Machine = "M-117 Five-axis machining centre with pallet changer and long bed", Area = "Behind the heat treatment, second door", Fluid = "Semi-synthetic of a very long name 6000 Extra" },
                label with { Fluid = null, Target = null, Scale = null, Gauge = null },
                label with { Gauge = new(null, null, 5m, 5m, null, null, [new(5m, "5.0"), new(5m, "5.0")]) },
            ],
        };

        using var pdf = Open(labels, size);

        Assert.All(pdf.GetPages(), p => Assert.All(p.Letters, l => Assert.True(l.BoundingBox.Left >= 0 && l.BoundingBox.Right <= p.Width + 0.01 && l.BoundingBox.Bottom >= 0 && l.BoundingBox.Top <= p.Height, $"{l.Value} at {l.BoundingBox}")));
    }

    // The names that take all the lines they may.
    [Theory]
    [InlineData(LabelSize.Roll62)]
    [InlineData(LabelSize.A6)]
    public void Write_LongAndShortNames_NothingStandsOnAnything(LabelSize size)
    {
        var label = Label(1);
        using var pdf = Open(Labels(0) with { Labels = [label, label with { Machine = "M-117 Machining centre, five axes", Fluid = "Grinding synthetic of a long name" }] }, size);

        Assert.All(pdf.GetPages(), page =>
        {
            var lines = page.Letters.Where(l => l.Value.Trim().Length > 0).GroupBy(l => (Math.Round(l.StartBaseLine.Y, 1), l.PointSize)).ToList();
            var boxes = lines.ConvertAll(g => (Left: g.Min(l => l.BoundingBox.Left), Right: g.Max(l => l.BoundingBox.Right), Bottom: g.Min(l => l.BoundingBox.Bottom), Top: g.Max(l => l.BoundingBox.Top), Text: string.Concat(g.Select(l => l.Value))));
            Assert.All(boxes, a => Assert.DoesNotContain(boxes, b => a != b && a.Left < b.Right && b.Left < a.Right && a.Bottom < b.Top && b.Bottom < a.Top));

            // Between the foot and what stands above it runs a rule.
            var foot = boxes.MinBy(b => b.Bottom);
            if (size == LabelSize.Roll62)
            {
                Assert.All(boxes.Where(b => b != foot), b => Assert.True(b.Bottom > foot.Top + 4, $"{b.Text} stands on the rule"));
            }
        });
    }

    [Theory]
    [InlineData(LabelSize.Roll62)]
    [InlineData(LabelSize.Sheet)]
    public void Write_SameLabels_GiveTheSameBytes(LabelSize size) => Assert.Equal(Bytes(Labels(4), size), Bytes(Labels(4), size));

    [Fact]
    public void Write_NoLabelOrLocalTime_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => Bytes(Labels(0), LabelSize.A6));
        Assert.Throws<ArgumentException>(() => Bytes(Labels(1) with { PrintedAtUtc = DateTime.SpecifyKind(Printed, DateTimeKind.Local) }, LabelSize.A6));
    }

    private static PdfDocument Open(SumpLabels labels, LabelSize size) => PdfDocument.Open(Bytes(labels, size));

    private static byte[] Bytes(SumpLabels labels, LabelSize size)
    {
        using var output = new MemoryStream();
        SumpLabelsPdf.Write(labels, size, PaperSize.A4, output);
        return output.ToArray();
    }

    private static SumpLabels Labels(int count) => new("Tarn Hollow", Printed, "en", [.. Enumerable.Range(1, count).Select(Label)]);

    private static SumpLabel Label(int n) => new(
        $"S-{n:00}",
        $"https://shop.example/enter/S-{n:00}",
        $"M-{n:00} Turning centre",
        "North bay",
        "Semi-synthetic 60",
        "7.0 to 9.0 %",
        "4.7 to 6.0",
        "339 mm, 160 L, pump stopped",
        "233 mm",
        new(4.0m, 4.3m, 4.7m, 6.0m, 6.4m, 7.0m, [new(4.3m, "4.3"), new(4.7m, "4.7"), new(6.0m, "6.0")]));
}
