using System.Collections;
using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Sheets.DosingLogs;
using ShopFluids.Printing.Sheets.InstrumentChecks;
using ShopFluids.Printing.Sheets.LotTraces;
using ShopFluids.Printing.Sheets.MonthlySummaries;
using ShopFluids.Printing.Sheets.OverdueWork;
using ShopFluids.Printing.Sheets.WasteLogs;
using ShopFluids.Printing.Tests.Pdf;
using Xunit;

namespace ShopFluids.Printing.Tests.Sheets;

/// <summary>What every sheet about the whole shop keeps.</summary>
public sealed class ListSheetsPdfTests
{
    private const string LongMachine = "M-07 five-axis machining centre with pallet changer and a name that nobody ever says in full";
    private const string LongRemark = ", as agreed with the safety officer on the telephone and written down afterwards by hand https://intranet.tarn-hollow.example/records/2026/11/25/agreed-with-the-safety-officer";

    public static TheoryData<string, PaperSize> Sheets
    {
        get
        {
            var all = new TheoryData<string, PaperSize>();
            foreach (var name in new[] { "lot", "overdue", "waste", "dosing", "month", "instruments" })
            {
                all.Add(name, PaperSize.A4);
                all.Add(name, PaperSize.Letter);
            }

            return all;
        }
    }

    [Theory]
    [MemberData(nameof(Sheets))]
    public void Write_Sheet_SaysEverythingThatTheModelSays(string name, PaperSize paper)
    {
        var (sheet, write) = Sample(name, paper);
        using var printed = PrintedSheet.Of(write);

        var text = printed.Text;
        Assert.All(Said(sheet), said => Assert.Contains(PrintedSheet.Packed(said), text, StringComparison.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Sheets))]
    public void Write_LongSheet_EveryPageCarriesTitleBlockAndFoot(string name, PaperSize paper)
    {
        var (_, write) = Sample(name, paper, rows: 60);
        using var printed = PrintedSheet.Of(write);

        Assert.True(printed.Pages.Count > 1);
        for (var page = 1; page <= printed.Pages.Count; page++)
        {
            var text = printed.PageText(page);
            Assert.Contains($"page{page}of{printed.Pages.Count}", text, StringComparison.Ordinal);
            Assert.Contains("TarnHollowMachining", text, StringComparison.Ordinal);
            Assert.Contains("Standsonrecordentry48,213.", text, StringComparison.Ordinal);
            Assert.Contains("7c1e90ab4f3d22e8·b605d1f983c46a07·19be5d20f7a1c83e·0d94e26b31f8a75c", text, StringComparison.Ordinal);
            Assert.Contains("Timesareshoptime,Europe/Berlin.", text, StringComparison.Ordinal);
        }
    }

    [Theory]
    [MemberData(nameof(Sheets))]
    public void Write_LongNames_WrapAndStayOnThePaper(string name, PaperSize paper)
    {
        var (sheet, write) = Sample(name, paper, machine: LongMachine, remark: LongRemark);
        using var printed = PrintedSheet.Of(write);

        var text = printed.Text;
        Assert.All(Said(sheet), said => Assert.Contains(PrintedSheet.Packed(said), text, StringComparison.Ordinal));
        Assert.All(printed.Pages, p => Assert.All(p.Letters, l => Assert.True(l.BoundingBox.Left >= 0 && l.BoundingBox.Right <= p.Width && l.BoundingBox.Bottom >= 0, $"{l.Value} at {l.BoundingBox}")));
    }

    [Theory]
    [MemberData(nameof(Sheets))]
    public void Write_SameSheetTwice_GivesTheSameBytes(string name, PaperSize paper)
    {
        using var first = PrintedSheet.Of(Sample(name, paper).Write);
        using var second = PrintedSheet.Of(Sample(name, paper).Write);

        Assert.Equal(first.Bytes, second.Bytes);
    }

    [Theory]
    [MemberData(nameof(Sheets))]
    public async Task Write_Picture_HasItsFrameItsTablesAndItsCodeAndWhiteEdges(string name, PaperSize paper)
    {
        using var printed = PrintedSheet.Of(Sample(name, paper).Write);

        var picture = await PagePicture.OfAsync(printed.Bytes, TestContext.Current.CancellationToken);

        Assert.Equal(0, picture.Ink(0, 0, 0.04, 1));
        Assert.Equal(0, picture.Ink(0.96, 0, 1, 1));
        Assert.True(picture.Ink(0.05, 0.03, 0.95, 0.12) > 0.02, "the title block");
        Assert.True(picture.Ink(0.05, 0.13, 0.95, 0.45) > 0.01, "the tables");
        Assert.True(picture.Ink(0.86, 0.9, 0.94, 0.96) > 0.2, "the code in the foot");
    }

    [Fact]
    public void Write_TimeNotInUtc_IsRefused()
    {
        var sheet = SampleLists.Waste();
        var local = sheet with { Frame = sheet.Frame with { Origin = sheet.Frame.Origin with { PrintedAtUtc = DateTime.SpecifyKind(SampleLists.Printed, DateTimeKind.Local) } } };

        Assert.Throws<ArgumentException>(() => WasteSheetPdf.Write(local, PaperSize.A4, Stream.Null));
    }

    [Fact]
    public void Write_NothingOnASheet_SaysSo()
    {
        using var overdue = PrintedSheet.Of(s => OverdueSheetPdf.Write(SampleLists.Overdue(0) with { Groups = [] }, PaperSize.A4, s));
        using var waste = PrintedSheet.Of(s => WasteSheetPdf.Write(SampleLists.Waste(0), PaperSize.A4, s));
        using var dosing = PrintedSheet.Of(s => DoseSheetPdf.Write(SampleLists.Dosing(0), PaperSize.A4, s));
        using var month = PrintedSheet.Of(s => MonthSheetPdf.Write(SampleLists.Month(0), PaperSize.A4, s));
        using var instruments = PrintedSheet.Of(s => InstrumentSheetPdf.Write(SampleLists.Instruments(0), PaperSize.A4, s));
        using var lot = PrintedSheet.Of(s => LotSheetPdf.Write([SampleLists.Lot(0)], PaperSize.A4, s));

        Assert.Equal(1, overdue.Count(Texts.OverdueSheet_Nothing));
        Assert.Equal(1, waste.Count(Texts.WasteSheet_None));
        Assert.Equal(1, dosing.Count(Texts.DoseSheet_None));
        Assert.All(new[] { Texts.MonthSheet_NoUse, Texts.MonthSheet_NoWork, Texts.MonthSheet_NoFlags, Texts.MonthSheet_NoCharges }, said => Assert.Equal(1, month.Count(said)));
        Assert.All(new[] { Texts.InstrumentSheet_None, Texts.InstrumentSheet_NoChecks, Texts.InstrumentSheet_NoLapses }, said => Assert.Equal(1, instruments.Count(said)));
        Assert.All(new[] { Texts.LotSheet_NoCharges, Texts.LotSheet_NoBack, Texts.LotSheet_NoPours, Texts.LotSheet_NoCounts }, said => Assert.Equal(1, lot.Count(said)));
    }

    [Fact]
    public void Write_OverdueWork_HasABoxForEachTaskAndNoneForAFlag()
    {
        using var printed = PrintedSheet.Of(s => OverdueSheetPdf.Write(SampleLists.Overdue(), PaperSize.A4, s));

        // Three tasks of one area, one of another, one of the stores; a page of the waste log has no box at all.
        Assert.Equal(5, Boxes(printed));
        using var waste = PrintedSheet.Of(s => WasteSheetPdf.Write(SampleLists.Waste(), PaperSize.A4, s));
        Assert.Equal(0, Boxes(waste));
    }

    [Fact]
    public void Write_LotsOfOneNumber_EachCountsItsOwnPages()
    {
        using var printed = PrintedSheet.Of(s => LotSheetPdf.Write([SampleLists.Lot(), SampleLists.Lot()], PaperSize.A4, s));

        Assert.Equal(2, printed.Pages.Count);
        Assert.Equal(2, printed.Count("2611-A · page 1 of 1"));
    }

    [Fact]
    public void Write_DoseStruckOut_IsStruckThroughAndItsReasonIsNot()
    {
        using var printed = PrintedSheet.Of(s => DoseSheetPdf.Write(SampleLists.Dosing(), PaperSize.A4, s));

        var page = Assert.Single(printed.Pages);
        Assert.Equal(1, printed.Count(SampleLists.StruckReason));
        Assert.True(PrintedSheet.IsStruck(page, page.GetWords().Single(w => w.Text == "S-09")));
        Assert.False(PrintedSheet.IsStruck(page, page.GetWords().Single(w => w.Text == "Struck")));
        Assert.False(PrintedSheet.IsStruck(page, page.GetWords().First(w => w.Text == "S-08")));
    }

    // A box to tick is the only square of nine points.
    private static int Boxes(PrintedSheet printed) =>
        printed.Pages.Sum(p => p.Paths.Count(path => path.GetBoundingRectangle() is { } box && Math.Abs(box.Width - 9) < 0.1 && Math.Abs(box.Height - 9) < 0.1));

    private static (object Sheet, Action<Stream> Write) Sample(string name, PaperSize paper, int rows = 1, string? machine = null, string remark = "")
    {
        switch (name)
        {
            case "lot":
                var lot = SampleLists.Lot(rows, machine ?? "M-07", remark);
                return (lot, s => LotSheetPdf.Write([lot], paper, s));
            case "overdue":
                var overdue = SampleLists.Overdue(rows, machine ?? "M-07 turning centre", remark);
                return (overdue, s => OverdueSheetPdf.Write(overdue, paper, s));
            case "waste":
                var waste = SampleLists.Waste(rows, machine ?? "S-07", remark);
                return (waste, s => WasteSheetPdf.Write(waste, paper, s));
            case "dosing":
                var dosing = SampleLists.Dosing(rows, machine ?? "S-07", remark);
                return (dosing, s => DoseSheetPdf.Write(dosing, paper, s));
            case "month":
                var month = SampleLists.Month(rows, machine ?? "S-07", remark);
                return (month, s => MonthSheetPdf.Write(month, paper, s));
            default:
                var instruments = SampleLists.Instruments(rows, machine ?? "R-3", remark);
                return (instruments, s => InstrumentSheetPdf.Write(instruments, paper, s));
        }
    }

    /// <summary>Every text of a model, whatever its shape; of its origin only what the foot says as it stands.</summary>
    private static IEnumerable<string> Said(object? value) => value switch
    {
        null => [],
        string text => text.Split('\n'),
        SheetOrigin origin => [origin.PrintedAt, origin.PrintedBy, origin.RecordEntry],
        SheetVerdict verdict => [verdict.Word],
        IEnumerable rows => rows.Cast<object>().SelectMany(Said),
        bool => [],
        _ => value.GetType().GetProperties().SelectMany(p => Said(p.GetValue(value))),
    };
}
