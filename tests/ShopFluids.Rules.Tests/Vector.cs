namespace ShopFluids.Rules.Tests;

/// <summary>Reads a file of published values; lines that begin with # name its source.</summary>
internal static class Vector
{
    public static IReadOnlyList<string[]> Rows(string file) =>
    [
        .. File.ReadLines(Path.Combine(AppContext.BaseDirectory, "Vectors", file))
            .Where(line => line.Length > 0 && !line.StartsWith('#'))
            .Skip(1)
            .Select(Cells),
    ];

    private static string[] Cells(string line)
    {
        var (cells, quoted) = (new List<string> { "" }, false);
        foreach (var character in line)
        {
            if (character == '"')
            {
                quoted = !quoted;
            }
            else if (character == ',' && !quoted)
            {
                cells.Add("");
            }
            else
            {
                cells[^1] += character;
            }
        }

        return [.. cells];
    }
}
