namespace ShopFluids.Printing.Layout;

/// <summary>Shares a table's width among its columns.</summary>
internal static class TableWidths
{
    /// <param name="columns">Of each column: the width of its longest word, the width of its longest cell on one line, and whether it takes the rest.</param>
    /// <param name="available">Width of the table without the gaps.</param>
    public static IReadOnlyList<double> Share(IReadOnlyList<(double Least, double Wanted, bool TakesRest)> columns, double available)
    {
        var least = columns.Sum(c => c.Least);
        if (least >= available)
        {
            // Too narrow for whole words: every column gives the same share, and its longest words are broken.
            return [.. columns.Select(c => c.Least * available / least)];
        }

        // Short columns come first to what they want, so that dates and numbers stay on one line and long remarks wrap.
        var widths = columns.Select(c => c.Least).ToArray();
        var rest = available - least;
        var byNeed = Enumerable.Range(0, columns.Count).OrderBy(n => columns[n].Wanted - columns[n].Least).ThenBy(n => n).ToArray();
        for (var n = 0; n < byNeed.Length; n++)
        {
            var column = columns[byNeed[n]];
            var given = Math.Min(column.Wanted - column.Least, rest / (byNeed.Length - n));
            widths[byNeed[n]] += given;
            rest -= given;
        }

        var takers = Enumerable.Range(0, columns.Count).Where(n => columns[n].TakesRest).ToArray();
        foreach (var taker in takers)
        {
            widths[taker] += rest / takers.Length;
        }

        return widths;
    }
}
