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
        return new PrintDocument([.. sheets.SelectMany(s => Pages(s, paper))], info);
    }

    private static IReadOnlyList<PrintPage> Pages(HistorySheet sheet, PaperSize paper)
    {
        var edges = PageEdges.Of(paper);
        var title = Title(sheet.Title, edges);
        var flow = new PageFlow(edges, title.Height, SheetFoot.Height);
        StandingBlock.Add(flow, sheet.Standing, sheet.Charge);
        Head(flow, sheet.Head);
        LimitsBlock.Add(flow, sheet.Limits);
        TrendsBlock.Add(flow, sheet.Trends);
        TableBlocks.AddFlags(flow, sheet.Flags);
        ReadingsBlock.Add(flow, sheet.Readings);
        TableBlocks.AddMovements(flow, sheet.Movements);
        TableBlocks.AddCleanOuts(flow, sheet.CleanOuts);
        TableBlocks.AddLots(flow, sheet.Lots);
        TableBlocks.AddTasks(flow, sheet.Tasks);
        Signatures(flow);

        // Title block and foot come last, because only now is the number of pages known.
        var foot = new SheetFoot(sheet.Title.Tag, sheet.Origin);
        for (var n = 0; n < flow.Pages.Count; n++)
        {
            title.Draw(flow.Pages[n], edges.Top, n + 1, flow.Pages.Count);
            foot.Draw(flow.Pages[n], edges.Left, edges.Right, edges.Bottom, n + 1, flow.Pages.Count);
        }

        return flow.Pages;
    }

    private static TitleBlock Title(HistorySheetTitle title, PageEdges edges) =>
        new(
            title.Tag,
            [
                (Texts.Sheet_Sheet, title.Sheet), (Texts.Sheet_Machine, title.Machine), (Texts.Sheet_Area, title.Area),
                (Texts.Sheet_Period, title.Period), (Texts.Sheet_Shop, title.Shop),
            ],
            edges.Left,
            edges.Right - edges.Left);

    private static void Head(PageFlow flow, HistorySheetHead head)
    {
        var grid = new FactsGrid(
            [
                Fact(Texts.Sheet_MachineName, head.MachineName), Fact(Texts.Sheet_MachineNumber, head.MachineNumber), Fact(Texts.Sheet_MachiningType, head.MachiningType),
                Fact(Texts.Sheet_Fluid, head.Fluid), Fact(Texts.Sheet_FillVolume, head.FillVolume), Fact(Texts.Sheet_WorkingConcentration, head.WorkingConcentration),
                Fact(Texts.Sheet_RefractometerFactor, head.RefractometerFactor), Fact(Texts.Sheet_TitrationFactor, head.TitrationFactor), Fact(Texts.Sheet_ResponsiblePerson, head.ResponsiblePerson),
                Fact(Texts.Sheet_MakeUpHardness, head.MakeUpHardness), Fact(Texts.Sheet_MakeUpNitrate, head.MakeUpNitrate), Fact(Texts.Sheet_MakeUpNitrite, head.MakeUpNitrite),
                Fact(Texts.Sheet_Biocide, head.Biocide), Fact(Texts.Sheet_BiocideConcentration, head.BiocideConcentration),
            ],
            3,
            flow.Width);
        flow.Heading(Texts.Sheet_FluidAndWater, grid.Height);
        grid.Draw(flow.Page, flow.Left, flow.Y);
        flow.Y += grid.Height;
        flow.EndBlock();

        // A gap in the record is printed lighter than what is known, and in words.
        static SheetFact Fact(string label, string? value) =>
            string.IsNullOrWhiteSpace(value) ? new(label, Texts.Sheet_NotRecorded, PrintFace.Regular) : new(label, value);
    }

    private static void Signatures(PageFlow flow)
    {
        const double room = 44;
        const double gap = 17;
        string[] labels = [Texts.Sheet_SignSupervisor, Texts.Sheet_SignSafety, Texts.Sheet_SignAuditor];
        flow.Need(room);
        var width = (flow.Width - (gap * (labels.Length - 1))) / labels.Length;
        var line = flow.Bottom - 16;
        for (var n = 0; n < labels.Length; n++)
        {
            var x = flow.Left + (n * (width + gap));
            flow.Page.Line(x, line, x + width, line, SheetStyle.Rule);
            flow.Page.Text(x, line + SheetStyle.Body + 2, labels[n], PrintFace.Regular, SheetStyle.Body);
        }

        flow.Y = flow.Bottom;
    }
}
