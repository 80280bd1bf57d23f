using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Drawing;
using ShopFluids.Printing.Fonts;
using ShopFluids.Printing.Layout;

namespace ShopFluids.Printing.Sheets.History;

/// <summary>The history sheet on its pages: what and where it stands now, limits before charts, charts before tables.</summary>
internal static class HistorySheetDocument
{
    public static PrintDocument LayOut(IReadOnlyList<HistorySheet> sheets, PaperSize paper)
    {
        var first = sheets[0];
        var info = new PrintDocumentInfo(
            Title: $"{first.Title.Sheet}, {first.Title.Period}",
            Subject: SheetText.Fill(Texts.Sheet_HistorySubject, first.Title.Machine, first.Title.Period),
            Author: first.Title.Shop,
            Language: first.Origin.Language,
            CreatedUtc: first.Origin.PrintedAtUtc);
        return new PrintDocument(Pages(sheets, paper), info);
    }

    // Each sheet is laid out when its pages are wanted: of a file of a hundred, one is in memory.
    private static IEnumerable<PrintPage> Pages(IReadOnlyList<HistorySheet> sheets, PaperSize paper)
    {
        foreach (var sheet in sheets)
        {
            var pages = Pages(sheet, paper);

            // One sheet alone needs no table of contents beside it.
            pages[0].Bookmark = sheets.Count > 1 ? SheetText.Fill(Texts.Sheet_Bookmark, sheet.Title.Tag, sheet.Title.Machine) : null;
            foreach (var page in pages)
            {
                yield return page;
            }
        }
    }

    private static IReadOnlyList<PrintPage> Pages(HistorySheet sheet, PaperSize paper) =>
        SheetPages.LayOut(paper, sheet.Title.Tag, Title(sheet.Title), sheet.Origin, flow =>
        {
            StandingBlock.Add(flow, sheet.Standing, sheet.Charge);
            Head(flow, sheet.Head, sheet.Origin);
            LimitsBlock.Add(flow, sheet.Limits);
            TrendsBlock.Add(flow, sheet.Trends);
            TableBlocks.AddFlags(flow, sheet.Flags);
            ReadingsBlock.Add(flow, sheet.Readings);
            TableBlocks.AddMovements(flow, sheet.Movements);
            TableBlocks.AddCleanOuts(flow, sheet.CleanOuts);
            TableBlocks.AddLots(flow, sheet.Lots);
            TableBlocks.AddTasks(flow, sheet.Tasks);
            SignatureLines.Add(flow);
        });

    private static (string Label, string Value)[] Title(HistorySheetTitle title) =>
    [
        (Texts.Sheet_Sheet, title.Sheet), (Texts.Sheet_Machine, title.Machine), (Texts.Sheet_Area, title.Area),
        (Texts.Sheet_Period, title.Period), (Texts.Sheet_Shop, title.Shop),
    ];

    private static void Head(PageFlow flow, HistorySheetHead head, SheetOrigin origin)
    {
        // A sheet of last year tells what is known of the water today: it says so.
        flow.Facts(
            SheetText.Fill(Texts.Sheet_FluidAndWater, origin.PrintedAt),
            [
                Fact(Texts.Sheet_MachineName, head.MachineName), Fact(Texts.Sheet_MachineNumber, head.MachineNumber), Fact(Texts.Sheet_MachiningType, head.MachiningType),
                Fact(Texts.Sheet_Fluid, head.Fluid), Fact(Texts.Sheet_FillVolume, head.FillVolume), Fact(Texts.Sheet_WorkingConcentration, head.WorkingConcentration),
                Fact(Texts.Sheet_RefractometerFactor, head.RefractometerFactor), Fact(Texts.Sheet_TitrationFactor, head.TitrationFactor), Fact(Texts.Sheet_ResponsiblePerson, head.ResponsiblePerson),
                Fact(Texts.Sheet_MakeUpHardness, head.MakeUpHardness), Fact(Texts.Sheet_MakeUpNitrate, head.MakeUpNitrate), Fact(Texts.Sheet_MakeUpNitrite, head.MakeUpNitrite),
                Fact(Texts.Sheet_Biocide, head.Biocide), Fact(Texts.Sheet_BiocideConcentration, head.BiocideConcentration),
            ],
            3);

        // A gap in the record is printed lighter than what is known, and in words.
        static SheetFact Fact(string label, string? value) =>
            string.IsNullOrWhiteSpace(value) ? new(label, Texts.Sheet_NotRecorded, PrintFace.Regular) : new(label, value);
    }
}
