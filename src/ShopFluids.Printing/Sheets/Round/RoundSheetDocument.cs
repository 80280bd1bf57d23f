using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Drawing;
using ShopFluids.Printing.Layout;

namespace ShopFluids.Printing.Sheets.Round;

/// <summary>The blank round sheet on its pages: a block for each sump, in walking order, none broken over two pages.</summary>
internal static class RoundSheetDocument
{
    public static PrintDocument LayOut(RoundSheet sheet, PaperSize paper)
    {
        var edges = PageEdges.Of(paper);
        var title = new TitleBlock(
            Texts.Round_Title,
            [
                (Texts.Sheet_Sheet, Texts.RoundSheet_Title), (Texts.RoundSheet_Day, sheet.Day), (Texts.Sheet_Area, sheet.Areas),
                (Texts.RoundSheet_Begun, " "), (Texts.Sheet_Shop, sheet.Shop),
            ],
            edges.Left,
            edges.Right - edges.Left);
        var flow = new PageFlow(edges, title.Height, SheetStyle.Body * 2);
        flow.Page.Text(flow.Left, flow.Y + SheetStyle.Body, Texts.RoundSheet_How, Fonts.PrintFace.Regular, SheetStyle.Body);
        flow.Y += SheetStyle.Body * 2;
        if (sheet.Stops.Count == 0)
        {
            flow.Heading(Texts.Round_NothingDue, 0);
        }

        foreach (var stop in sheet.Stops)
        {
            StopBlock.Add(flow, stop);
        }

        for (var n = 0; n < flow.Pages.Count; n++)
        {
            title.Draw(flow.Pages[n], edges.Top, n + 1, flow.Pages.Count);
            flow.Pages[n].Text(edges.Left, edges.Bottom, SheetText.Fill(Texts.RoundSheet_Printed, sheet.PrintedAt, sheet.PrintedBy), Fonts.PrintFace.Regular, SheetStyle.Small);
        }

        return new PrintDocument(flow.Pages, new(
            $"{Texts.RoundSheet_Title}, {sheet.Day}", $"{Texts.RoundSheet_Title}, {sheet.Areas}", sheet.Shop, sheet.Language, sheet.PrintedAtUtc));
    }
}
