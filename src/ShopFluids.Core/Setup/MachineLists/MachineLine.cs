using ShopFluids.Core.Machines;

namespace ShopFluids.Core.Setup.MachineLists;

/// <summary>One line of a list: a machine with its sump, as it was typed.</summary>
/// <param name="Number">1 for the first line that is not empty.</param>
/// <param name="CellCount">How many cells were typed.</param>
/// <param name="Tag">Of the sump.</param>
/// <param name="Machine">Its kind; before it its tag, where that is not the sump's.</param>
/// <param name="Size">Length, width and height inside, with a cross between them.</param>
public sealed record MachineLine(int Number, Guid SumpId, Guid MachineId, int CellCount, string Tag, string Machine, string Area, string Size, string FullMark, string PumpIntake)
{
    private const int MeasuresApart = 8;
    private static readonly char[] Crosses = ['×', 'x', 'X', '*'];

    /// <summary>As many cells as a line has; two more where the measures stand in cells of their own.</summary>
    public const int Cells = 6;

    public bool HasTooMany => CellCount > Cells && CellCount != MeasuresApart;

    /// <summary>The three measures, or however many were typed.</summary>
    public IReadOnlyList<string> Measures => Size.Split(Crosses, StringSplitOptions.TrimEntries);

    /// <summary>
    /// The machine's tag and its kind. A first word with a digit, beginning with a letter, is a tag, as in M-07 Turning centre; without one the
    /// machine has the tag of its sump.
    /// </summary>
    public (string Tag, string Name, bool HasOwnTag) Named => Machine.Split(' ', 2, StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries) switch
    {
        [var tag, var kind] when LooksLikeATag(tag) => (tag, kind, true),
        [var tag] when LooksLikeATag(tag) => (tag, tag, true),
        _ => (Tag, Machine, false),
    };

    /// <summary>The lines of a text, apart by line breaks, their cells by tabs, as a spreadsheet pastes them, or by semicolons.</summary>
    public static IReadOnlyList<MachineLine> Read(string text, Func<Guid> newId)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(newId);
        return
        [
            .. text.ReplaceLineEndings("\n").Split('\n').Where(l => !string.IsNullOrWhiteSpace(l))
                .Select((line, place) => Of(place + 1, newId(), newId(), line.Split(line.Contains('\t', StringComparison.Ordinal) ? '\t' : ';', StringSplitOptions.TrimEntries))),
        ];
    }

    private static MachineLine Of(int number, Guid sumpId, Guid machineId, string[] cells)
    {
        var merged = cells.Length == MeasuresApart ? [.. cells[..3], string.Join(" × ", cells[3..6]), .. cells[6..]] : cells;
        string Cell(int place) => place < merged.Length ? merged[place] : "";
        return new(number, sumpId, machineId, cells.Length, Cell(0), Cell(1), Cell(2), Cell(3), Cell(4), Cell(5));
    }

    private static bool LooksLikeATag(string word) => Tags.IsValid(word) && char.IsLetter(word[0]) && word.Any(char.IsAsciiDigit);
}
