namespace ShopFluids.Printing.Layout;

/// <summary>Puts labels and values into a flow of pages, under their heading.</summary>
internal static class FlowFacts
{
    public static void Facts(this PageFlow flow, string heading, IReadOnlyList<SheetFact> facts, int columns)
    {
        var grid = new FactsGrid(facts, columns, flow.Width);
        flow.Heading(heading, grid.Height);
        grid.Draw(flow.Page, flow.Left, flow.Y);
        flow.Y += grid.Height;
        flow.EndBlock();
    }
}
