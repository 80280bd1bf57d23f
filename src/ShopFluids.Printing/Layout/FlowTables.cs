using ShopFluids.Core.Wording;
using ShopFluids.Printing.Fonts;

namespace ShopFluids.Printing.Layout;

/// <summary>Puts tables into a flow of pages: heads are repeated, rows stay whole unless a row alone is taller than a page.</summary>
internal static class FlowTables
{
    public static void Table(this PageFlow flow, string heading, IReadOnlyList<TableColumn> columns, IReadOnlyList<TableRow> rows, string whenEmpty)
    {
        if (rows.Count == 0)
        {
            flow.Heading(heading, SheetStyle.Body * SheetStyle.LineHeight);
            flow.Note(whenEmpty);
            flow.EndBlock();
            return;
        }

        var table = new TableLayout(columns, rows, flow.Width);
        var wholePage = flow.Bottom - flow.Top - PageFlow.HeadingHeight - table.HeadHeight;
        flow.Heading(heading, table.HeadHeight + (Pair(table, 0) <= wholePage ? Pair(table, 0) : Math.Min(table.RowHeight(0), wholePage)));
        flow.Y = table.DrawHead(flow.Page, flow.Left, flow.Y);
        for (var row = 0; row < table.Count; row++)
        {
            // The last two rows stay together, so that no page begins with a lone end of a table.
            var together = row > 0 && row == table.Count - 2 ? Pair(table, row) : table.RowHeight(row);
            if (together > flow.Room && together <= wholePage)
            {
                Continue(flow, heading, table);
            }

            Row(flow, heading, table, row);
        }

        flow.EndBlock();
    }

    /// <summary>A paragraph over the whole width.</summary>
    public static void Note(this PageFlow flow, string text)
    {
        foreach (var line in TextLines.Break(text, PrintFace.Regular, SheetStyle.Body, flow.Width))
        {
            flow.Need(SheetStyle.Body * SheetStyle.LineHeight);
            flow.Page.Text(flow.Left, flow.Y + SheetStyle.Body, line, PrintFace.Regular, SheetStyle.Body);
            flow.Y += SheetStyle.Body * SheetStyle.LineHeight;
        }
    }

    private static double Pair(TableLayout table, int row) => table.RowHeight(row) + (row + 1 < table.Count ? table.RowHeight(row + 1) : 0);

    private static void Row(PageFlow flow, string heading, TableLayout table, int row)
    {
        var (first, left) = (0, table.LineCount(row));
        while (left > 0)
        {
            var fitting = Math.Min(left, table.LinesIn(flow.Room + 0.01));
            if (fitting <= 0)
            {
                Continue(flow, heading, table);
                continue;
            }

            flow.Y = table.DrawLines(flow.Page, flow.Left, flow.Y, row, first, fitting);
            (first, left) = (first + fitting, left - fitting);
        }
    }

    private static void Continue(PageFlow flow, string heading, TableLayout table)
    {
        flow.NewPage();
        flow.Heading(SheetText.Fill(Texts.Sheet_Continued, heading), 0);
        flow.Y = table.DrawHead(flow.Page, flow.Left, flow.Y);
    }
}
