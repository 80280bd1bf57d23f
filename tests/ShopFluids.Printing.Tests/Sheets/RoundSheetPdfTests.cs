using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Sheets.Round;
using ShopFluids.Printing.Tests.Pdf;
using UglyToad.PdfPig;
using Xunit;

namespace ShopFluids.Printing.Tests.Sheets;

public sealed class RoundSheetPdfTests
{
    private static readonly DateTime Printed = new(2026, 11, 25, 13, 40, 0, DateTimeKind.Utc);

    private static RoundSheet Sheet(int stops) => new("Tarn Hollow", "25 Nov 2026", "Turning", "25 Nov 2026, 14:40", "M. Ostrey", Printed, "en", [.. Enumerable.Range(1, stops).Select(Stop)]);

    private static RoundSheetStop Stop(int n) => new(
        $"S-{n:00}",
        $"M-{n:00} Turning centre, Turning",
        n == 1 ? "2 days late" : null,
        $"https://shop.example/enter/S-{n:00}?paper=1",
        [
            new("Concentration", "Brix", "target 6.0 to 9.0 %", "last 7.2 %, 6 days ago", []),
            new("pH", "", "target 8.8 to 9.4", "last 9.0, 6 days ago", []),
            new("Level", "mm", null, null, []),
            new("Odour", "", null, "last none, 6 days ago", ["none", "slight", "clear", "strong"]),
        ]);

    private static PdfDocument Write(RoundSheet sheet, PaperSize paper = PaperSize.A4) => PdfDocument.Open(Bytes(sheet, paper));

    private static byte[] Bytes(RoundSheet sheet, PaperSize paper)
    {
        using var output = new MemoryStream();
        RoundSheetPdf.Write(sheet, paper, output);
        return output.ToArray();
    }

    [Theory]
    [InlineData(PaperSize.A4)]
    [InlineData(PaperSize.Letter)]
    public void Write_ManyStops_EachStandsOnceAndWholeOnOnePage(PaperSize paper)
    {
        using var pdf = Write(Sheet(14), paper);
        var pages = pdf.GetPages().Select(p => PrintedSheet.Packed(p.Text)).ToList();

        Assert.True(pages.Count > 1);
        for (var n = 1; n <= 14; n++)
        {
            var page = Assert.Single(pages, p => p.Contains($"M-{n:00}Turningcentre", StringComparison.Ordinal));
            Assert.Contains($"S-{n:00}", page, StringComparison.Ordinal);
        }

        Assert.All(pages, p => Assert.Contains(PrintedSheet.Packed(Texts.RoundSheet_Title), p, StringComparison.Ordinal));
        Assert.Equal(14, pages.Sum(p => p.Split(PrintedSheet.Packed(Texts.RoundSheet_NotRead)).Length - 1));
    }

    // A product's name may have two hundred signs; the code stands to the right.
    [Fact]
    public void Write_LongDanger_StaysBesideTheCode()
    {
        var danger = $"Keep away until 28 Nov 2026, 01:21: {string.Join(' ', Enumerable.Repeat("Biocide", 25))}";

        using var pdf = Write(Sheet(1) with { Stops = [Stop(1) with { Dangers = [danger] }] });

        var page = pdf.GetPages().First();
        Assert.Contains(PrintedSheet.Packed(danger), PrintedSheet.Packed(page.Text), StringComparison.Ordinal);
        Assert.All(page.GetWords().Where(w => w.Text == "Biocide"), w => Assert.True(w.BoundingBox.Right < page.Width * 0.86, $"ends at {w.BoundingBox.Right} of {page.Width}"));
    }

    [Fact]
    public void Write_Stop_SaysRangeLastValueAndWords()
    {
        using var pdf = Write(Sheet(1));
        var text = PrintedSheet.Packed(string.Concat(pdf.GetPages().Select(p => p.Text)));

        Assert.All(
            new[] { "2 days late", "Brix", "target 6.0 to 9.0 %", "last 7.2 %, 6 days ago", "slight", "strong", Texts.Skip_MachineRunning, Texts.RoundSheet_How },
            said => Assert.Contains(PrintedSheet.Packed(said), text, StringComparison.Ordinal));
    }

    [Fact]
    public void Write_NothingDue_SaysSo()
    {
        using var pdf = Write(Sheet(0));

        Assert.Contains(PrintedSheet.Packed(Texts.Round_NothingDue), PrintedSheet.Packed(Assert.Single(pdf.GetPages()).Text), StringComparison.Ordinal);
    }

    [Fact]
    public void Write_Everything_StaysOnThePaper()
    {
        using var pdf = Write(Sheet(14));

        Assert.All(pdf.GetPages(), p => Assert.All(p.Letters, l => Assert.True(l.BoundingBox.Left >= 0 && l.BoundingBox.Right <= p.Width && l.BoundingBox.Bottom >= 0, $"{l.Value} at {l.BoundingBox}")));
    }

    [Fact]
    public void Write_SameSheetTwice_GivesTheSameBytes() => Assert.Equal(Bytes(Sheet(5), PaperSize.A4), Bytes(Sheet(5), PaperSize.A4));

    [Fact]
    public void Write_TimeNotInUtc_IsRefused() =>
        Assert.Throws<ArgumentException>(() => Bytes(Sheet(1) with { PrintedAtUtc = DateTime.SpecifyKind(Printed, DateTimeKind.Local) }, PaperSize.A4));
}
