using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Printing.Drawing;

namespace ShopFluids.Printing.Layout;

/// <summary>Blocks between a title block and a foot that stand on every page.</summary>
internal static class SheetPages
{
    /// <param name="paper">The paper.</param>
    /// <param name="tag">Printed large in the title block, and again in the foot.</param>
    /// <param name="fields">The five fields of the title block.</param>
    /// <param name="origin">What the foot says.</param>
    /// <param name="blocks">Fills the pages.</param>
    public static IReadOnlyList<PrintPage> LayOut(PaperSize paper, string tag, IReadOnlyList<(string Label, string Value)> fields, SheetOrigin origin, Action<PageFlow> blocks)
    {
        var edges = PageEdges.Of(paper);
        var title = new TitleBlock(tag, fields, edges.Left, edges.Right - edges.Left);
        var flow = new PageFlow(edges, title.Height, SheetFoot.Height);
        blocks(flow);

        // Title block and foot come last, because only now is the number of pages known.
        var foot = new SheetFoot(tag, origin);
        for (var n = 0; n < flow.Pages.Count; n++)
        {
            title.Draw(flow.Pages[n], edges.Top, n + 1, flow.Pages.Count);
            foot.Draw(flow.Pages[n], edges.Left, edges.Right, edges.Bottom, n + 1, flow.Pages.Count);
        }

        return flow.Pages;
    }

    /// <summary>A whole document of a sheet that is not about one sump.</summary>
    /// <param name="frame">Title block and foot.</param>
    /// <param name="second">The field beside what the sheet is.</param>
    /// <param name="third">The field beside that.</param>
    /// <param name="paper">The paper.</param>
    /// <param name="blocks">Fills the pages.</param>
    public static PrintDocument LayOut(SheetFrame frame, (string Label, string Value) second, (string Label, string Value) third, PaperSize paper, Action<PageFlow> blocks)
    {
        var fields = new[] { (Texts.Sheet_Sheet, frame.Sheet), second, third, (Texts.Sheet_Period, frame.Period), (Texts.Sheet_Shop, frame.Shop) };
        return new PrintDocument(
            LayOut(paper, frame.Tag, fields, frame.Origin, blocks),
            new($"{frame.Sheet}, {frame.Period}", $"{frame.Sheet}, {frame.Tag}", frame.Shop, frame.Origin.Language, frame.Origin.PrintedAtUtc));
    }
}
