using System.Globalization;
using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Sheets.History;
using ShopFluids.Printing.Tests.Pdf;
using ShopFluids.Rules;
using UglyToad.PdfPig;
using Xunit;

namespace ShopFluids.Printing.Tests.Sheets;

public sealed class HistorySheetPdfTests
{
    public static TheoryData<string> Blocks =>
    [
        "Standing on 25 Nov 2026, 14:26", Texts.Sheet_CurrentCharge, string.Format(CultureInfo.InvariantCulture, Texts.Sheet_FluidAndWater, SampleSheet.Build().Origin.PrintedAt), "Limits in force, version 3, from 1 Jun 2026", Texts.Sheet_Trends,
        Texts.Sheet_Flags, Texts.Sheet_Readings, Texts.Sheet_Movements, Texts.Sheet_Lots, Texts.Sheet_Tasks, Texts.Sheet_SignSupervisor,
    ];

    [Theory]
    [MemberData(nameof(Blocks))]
    public void Write_Sheet_HasEveryBlock(string heading)
    {
        using var printed = PrintedSheet.Of(SampleSheet.Build());

        Assert.True(printed.Count(heading) > 0);
    }

    [Fact]
    public void Write_Sheet_SaysEverythingThatTheModelSays()
    {
        var sheet = SampleSheet.Build();
        using var printed = PrintedSheet.Of(sheet);

        var text = printed.Text;
        Assert.All(Everything(sheet), said => Assert.Contains(PrintedSheet.Packed(said), text, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(PaperSize.A4, 595.276, 841.89)]
    [InlineData(PaperSize.Letter, 612, 792)]
    public void Write_Paper_GivesItsSizeOnEveryPage(PaperSize paper, double width, double height)
    {
        using var printed = PrintedSheet.Of(SampleSheet.Build(), paper);

        Assert.All(printed.Pages, p =>
        {
            Assert.Equal(width, p.Width, 2);
            Assert.Equal(height, p.Height, 2);
        });
    }

    [Theory]
    [InlineData(PaperSize.A4)]
    [InlineData(PaperSize.Letter)]
    public void Write_Sheet_EveryPageCarriesTitleBlockAndFoot(PaperSize paper)
    {
        using var printed = PrintedSheet.Of(SampleSheet.WithReadings(120), paper);

        for (var page = 1; page <= printed.Pages.Count; page++)
        {
            var text = printed.PageText(page);
            Assert.Contains($"{page}of{printed.Pages.Count}", text, StringComparison.Ordinal);
            Assert.Contains($"S-07·page{page}of{printed.Pages.Count}", text, StringComparison.Ordinal);
            Assert.Contains("M-07turningcentre", text, StringComparison.Ordinal);
            Assert.Contains("Standsonrecordentry48213.", text, StringComparison.Ordinal);
            Assert.Contains("7c1e90ab4f3d22e8·b605d1f983c46a07·19be5d20f7a1c83e·0d94e26b31f8a75c", text, StringComparison.Ordinal);
            Assert.Contains("Timesareshoptime,UTC+1.", text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Write_SupersededReading_ShowsTheReadingAndItsReason()
    {
        using var printed = PrintedSheet.Of(SampleSheet.Build());

        Assert.Equal(1, printed.Count("22 Oct 13:40T. Vell8.312.49.1325153.5nonefilm"));
        Assert.Equal(1, printed.Count(SampleSheet.SupersededReason));
    }

    [Fact]
    public void Write_SupersededReading_IsStruckThroughAndItsReasonIsNot()
    {
        using var printed = PrintedSheet.Of(SampleSheet.Build());

        var page = printed.Pages.Single(p => PrintedSheet.Packed(p.Text).Contains(PrintedSheet.Packed(SampleSheet.SupersededReason), StringComparison.Ordinal));
        var value = page.GetWords().Single(w => w.Text == "12.4" && w.BoundingBox.Left < 250 && page.Height - w.BoundingBox.Top > 300);
        var reason = page.GetWords().Single(w => w.Text == "superseded" && w.BoundingBox.Left > 430 && page.Height - w.BoundingBox.Top > 300);

        Assert.True(PrintedSheet.IsStruck(page, value));
        Assert.False(PrintedSheet.IsStruck(page, reason));
    }

    [Theory]
    [InlineData(PaperSize.A4)]
    [InlineData(PaperSize.Letter)]
    public void Write_FiveHundredReadings_LosesNone(PaperSize paper)
    {
        using var printed = PrintedSheet.Of(SampleSheet.WithReadings(500), paper);

        Assert.InRange(printed.Pages.Count, 12, 20);
        var text = printed.Text;
        for (var n = 0; n < 500; n++)
        {
            var marker = SampleSheet.Marker(n);
            var at = text.IndexOf(marker, StringComparison.Ordinal);
            Assert.True(at >= 0, $"{marker} is missing.");
            Assert.Equal(at, text.LastIndexOf(marker, StringComparison.Ordinal));
        }
    }

    [Fact]
    public void Write_TableOverSeveralPages_RepeatsItsHead()
    {
        using var printed = PrintedSheet.Of(SampleSheet.WithReadings(120));

        var pages = printed.Pages.Count(p => p.Text.Contains("visit-", StringComparison.Ordinal));
        Assert.True(pages > 2);
        Assert.Equal(pages - 1, printed.Count("Readings, newest first, continued"));
        Assert.Equal(pages, printed.Count("Odour"));
    }

    [Fact]
    public void Write_RemarkTallerThanAPage_IsBrokenOverPagesAndNotCut()
    {
        var sheet = SampleSheet.Build();
        var words = string.Join(' ', Enumerable.Range(0, 1500).Select(n => $"word{n:0000}"));
        var row = sheet.Readings.Rows[0] with { Remark = words };

        using var printed = PrintedSheet.Of(sheet with { Readings = sheet.Readings with { Rows = [sheet.Readings.Rows[1], row, sheet.Readings.Rows[2]] } });

        Assert.All(words.Split(' '), w => Assert.Equal(1, printed.Count(w)));
    }

    [Fact]
    public void Write_ManyParameters_PutsTheRestIntoAFurtherTable()
    {
        var sheet = SampleSheet.Build();
        var columns = Enumerable.Range(10, 16).Select(n => new HistorySheetColumn($"Parameter {n}", IsNumber: true, IsMain: false)).ToList();
        var rows = sheet.Readings.Rows.Select((r, line) => r with { Cells = [.. columns.Select((_, n) => new HistorySheetCell($"{line + 10}.{n + 10}5"))] }).ToList();

        using var printed = PrintedSheet.Of(sheet with { Readings = new(columns, rows) });

        Assert.True(printed.Count(Texts.Sheet_FurtherValues) > 0);
        Assert.All(rows.SelectMany(r => r.Cells), c => Assert.True(printed.Count(c.Text) > 0, $"{c.Text} is missing."));
        AssertInsideMargins(printed);
    }

    [Theory]
    [InlineData(PaperSize.A4)]
    [InlineData(PaperSize.Letter)]
    public void Write_LongNamesAndNotes_StayInsideTheMargins(PaperSize paper)
    {
        var sheet = SampleSheet.Build();
        var longName = string.Join(", ", Enumerable.Range(1, 12).Select(n => $"M-{n:00} turning centre"));
        var address = "https://coolant.example/" + new string('x', 300);

        using var printed = PrintedSheet.Of(
            sheet with
            {
                Title = sheet.Title with { Tag = "CENTRAL-SOUTH-03", Machine = longName, Shop = address },
                Head = sheet.Head with { MachineName = longName, ResponsiblePerson = address },
                Flags = [sheet.Flags[0] with { Reason = address, Ended = longName }],
                Tasks = [sheet.Tasks[0] with { What = address, By = longName }],
            },
            paper);

        AssertInsideMargins(printed);
        Assert.True(printed.Count(longName) > 2);
        Assert.True(printed.Count(address) > 2);
    }

    [Fact]
    public void Write_NothingYet_SaysSoInEveryBlock()
    {
        using var printed = PrintedSheet.Of(SampleSheet.Empty());

        string[] sentences =
        [
            Texts.Sheet_NothingMeasured, Texts.Sheet_NoCharge, Texts.Sheet_NoLimits, Texts.Sheet_NoFlags, Texts.Sheet_NoReadings,
            Texts.Sheet_NoMovements, Texts.Sheet_NoLots, Texts.Sheet_NoTasks, Texts.Sheet_NoReadingsInChart,
        ];
        Assert.All(sentences, s => Assert.True(printed.Count(s) > 0, s));
    }

    [Fact]
    public void Write_FieldsNotRecorded_ShowsTheGap()
    {
        var sheet = SampleSheet.Build();

        using var printed = PrintedSheet.Of(sheet with { Head = new("Saw", "M-09", null, null, null, null, null, null, null, null, null, null, null, null) });

        Assert.Equal(12, printed.Count(Texts.Sheet_NotRecorded));
    }

    [Fact]
    public void Write_GermanTexts_PassThroughUnchanged()
    {
        var sheet = SampleSheet.Build();
        string[] german = ["8,4 %", "147,9 L", "25. Nov. 2026, 14:26", "± 0,3", "1.250 µS/cm", "Größe „Süd“, Öl auf der Fläche", "2 Tage über der Frist"];

        using var printed = PrintedSheet.Of(sheet with
        {
            Standing = new(german[2], [new("Konzentration", german[0], german[3], new(Verdict.Warning, Direction.Low, german[6], IsLate: true)), new("Volumen", german[1], german[4], sheet.Standing.Rows[0].Verdict)]),
            Title = sheet.Title with { Area = german[5] },
            Origin = sheet.Origin with { Language = "de" },
        });

        Assert.All(german, g => Assert.True(printed.Count(g) > 0, g));
    }

    [Fact]
    public void Write_EarlierLimits_AreListedWithTheirEnd()
    {
        var sheet = SampleSheet.Build();
        var before = sheet.Limits[0] with { Version = "2", ValidFrom = "1 Jan 2026", ValidTo = "31 May 2026" };

        using var printed = PrintedSheet.Of(sheet with { Limits = [sheet.Limits[0], before] });

        Assert.Equal(1, printed.Count("Limits before, version 2, 1 Jan 2026 to 31 May 2026"));
    }

    [Fact]
    public void Write_SheetsOfOneMachine_CountTheirPagesApart()
    {
        var first = SampleSheet.Build();
        var second = first with { Title = first.Title with { Tag = "S-08" } };
        using var output = new MemoryStream();

        HistorySheetPdf.Write([first, second], PaperSize.A4, output);

        using var document = PdfDocument.Open(output.ToArray());
        Assert.Equal(6, document.NumberOfPages);
        Assert.Contains("S-08·page1of3", PrintedSheet.Packed(document.GetPage(4).Text), StringComparison.Ordinal);
    }

    [Fact]
    public void Write_TimeOfPrintingNotInUtc_Refuses()
    {
        var sheet = SampleSheet.Build();
        var local = DateTime.SpecifyKind(sheet.Origin.PrintedAtUtc, DateTimeKind.Unspecified);

        Assert.Throws<ArgumentException>(() => HistorySheetPdf.Write(sheet with { Origin = sheet.Origin with { PrintedAtUtc = local } }, PaperSize.A4, Stream.Null));
    }

    [Fact]
    public void Write_DoseStruckOut_IsStruckThroughAndItsReasonIsNot()
    {
        var sheet = SampleSheet.Build() with { Movements = [new("19 Nov 07:40", "dose", "", "", "", "", "J. Karrow", "240 mL Antifoam (defoamer)", "Struck out 19 Nov 08:02 by M. Ostrey: elsewhere")] };

        using var printed = PrintedSheet.Of(sheet);

        var page = printed.Pages.Single(p => p.GetWords().Any(w => w.Text == "Antifoam"));
        Assert.True(PrintedSheet.IsStruck(page, page.GetWords().Single(w => w.Text == "Antifoam")));
        Assert.False(PrintedSheet.IsStruck(page, page.GetWords().Single(w => w.Text == "elsewhere")));
    }

    [Fact]
    public void Write_NoSheets_Refuses() => Assert.Throws<ArgumentException>(() => HistorySheetPdf.Write([], PaperSize.A4, Stream.Null));

    private static void AssertInsideMargins(PrintedSheet printed) =>
        Assert.Empty(printed.Pages.SelectMany(page => page.Letters
            .Where(l => l.StartBaseLine.X < 31 || l.EndBaseLine.X > page.Width - 31 || l.StartBaseLine.Y < 25 || l.StartBaseLine.Y > page.Height - 31)
            .Select(l => $"page {page.Number}: {l.Value} at {l.StartBaseLine}").Take(3)));

    [Fact]
    public void Write_SeveralSheets_HaveABookmarkEachThatLeadsToItsFirstPage()
    {
        var first = SampleSheet.WithReadings(120);
        var second = SampleSheet.Build() with { Title = first.Title with { Tag = "S-08", Machine = "M-08 five-axis mill" } };
        using var printed = PrintedSheet.Of(s => HistorySheetPdf.Write([first, second], PaperSize.A4, s));
        using var again = PrintedSheet.Of(s => HistorySheetPdf.Write([first, second], PaperSize.A4, s));

        Assert.True(printed.Document.TryGetBookmarks(out var bookmarks));
        var leads = bookmarks.GetNodes().OfType<UglyToad.PdfPig.Outline.DocumentBookmarkNode>().ToList();
        Assert.Equal(["S-07, M-07 turning centre", "S-08, M-08 five-axis mill"], leads.Select(b => b.Title));
        Assert.Equal(1, leads[0].PageNumber);
        Assert.Contains("S-08·page1of", printed.PageText(leads[1].PageNumber), StringComparison.Ordinal);
        Assert.Equal(printed.Bytes, again.Bytes);
    }

    [Fact]
    public void Write_OneSheet_HasNoBookmarks()
    {
        using var printed = PrintedSheet.Of(SampleSheet.Build());

        Assert.False(printed.Document.TryGetBookmarks(out _));
    }

    private static IEnumerable<string> Everything(HistorySheet s) =>
    [
        s.Title.Tag, s.Title.Sheet, s.Title.Machine, s.Title.Area, s.Title.Period, s.Title.Shop,
        s.Head.MachineName, s.Head.MachineNumber, s.Head.MachiningType!, s.Head.Fluid!, s.Head.WorkingConcentration!, s.Head.FillVolume!, s.Head.MakeUpNitrate!, s.Head.ResponsiblePerson!,
        .. s.Standing.Rows.SelectMany(r => new[] { r.Parameter, r.Value, r.Remark, r.Verdict.Word }),
        s.Charge!.Number, s.Charge.FilledOn, s.Charge.Age, s.Charge.FillLot!, s.Charge.WaterFilled!, s.Charge.ConcentrateFilled!, s.Charge.WaterAdded!, s.Charge.ConcentrateAdded!, s.Charge.Evaporated!, s.Charge.CarriedOff!, s.Charge.HardnessNow!,
        .. s.Limits.SelectMany(l => l.Rows).SelectMany(r => new[] { r.Parameter, r.Method, r.Target ?? "" }),
        .. s.Trends.Charts.Select(c => c.Title),
        .. s.Flags.SelectMany(f => new[] { f.Raised, f.Reason, f.Ended }),
        .. s.Readings.Rows.SelectMany(r => new[] { r.When, r.By, r.Verdict.Word, r.Remark }.Concat(r.Cells.Select(c => c.Text))),
        .. s.Movements.SelectMany(m => new[] { m.When, m.What, m.WaterLitres, m.ConcentrateLitres, m.RemovedLitres, m.Lot, m.By, m.Remark }),
        .. s.Lots.SelectMany(l => new[] { l.Lot, l.Fluid, l.Received, l.Expiry, l.DrawnLitres }),
        .. s.Tasks.SelectMany(t => new[] { t.Due, t.Done, t.What, t.By }),
        s.Origin.PrintedAt, s.Origin.PrintedBy,
    ];
}
