using System.Collections.Frozen;

namespace ShopFluids.Rules.Patterns;

/// <summary>A symptom of the table.</summary>
/// <param name="Code">Its code.</param>
/// <param name="ShownBy">It is there where all conditions of any one of these hold; empty where only a person sees it.</param>
public sealed record PatternSymptom(string Code, IReadOnlyList<IReadOnlyList<PatternCondition>> ShownBy);

/// <summary>A row of the table: a symptom, a cause, and what speaks for it. Codes only; the words are made elsewhere.</summary>
/// <param name="Code">Its own code.</param>
/// <param name="Symptom">The code of its symptom.</param>
/// <param name="Cause">The code of the cause; several rows may name one.</param>
/// <param name="Evidence">What speaks for the cause where it holds, and against it where it does not.</param>
/// <param name="Checks">What to look at, codes.</param>
/// <param name="Actions">What to do, codes.</param>
/// <param name="Cautions">What to beware of, codes.</param>
/// <param name="Sources">Where the row comes from, codes.</param>
public sealed record PatternRow(
    string Code,
    string Symptom,
    string Cause,
    IReadOnlyList<PatternCondition> Evidence,
    IReadOnlyList<string> Checks,
    IReadOnlyList<string> Actions,
    IReadOnlyList<string> Cautions,
    IReadOnlyList<string> Sources);

/// <summary>The pattern table as shipped, read once from the two files beside this one.</summary>
public sealed class PatternTable
{
    private const int SymptomCells = 2;
    private const int RowCells = 8;

    private readonly FrozenDictionary<string, PatternSymptom> _symptoms;

    private PatternTable(IReadOnlyList<PatternSymptom> symptoms, IReadOnlyList<PatternRow> rows)
    {
        (Symptoms, Rows) = (symptoms, rows);
        _symptoms = symptoms.ToFrozenDictionary(s => s.Code, StringComparer.Ordinal);
    }

    /// <summary>The shipped table.</summary>
    public static PatternTable Shipped { get; } = Read(Lines("symptoms.csv"), Lines("patterns.csv"));

    /// <summary>The symptoms in their order.</summary>
    public IReadOnlyList<PatternSymptom> Symptoms { get; }

    /// <summary>The rows in their order, which decides between causes of which the same is known.</summary>
    public IReadOnlyList<PatternRow> Rows { get; }

    /// <summary>A symptom; null where the table has none of this code.</summary>
    /// <param name="code">Its code.</param>
    public PatternSymptom? FindSymptom(string code) => _symptoms.GetValueOrDefault(code);

    /// <summary>Reads a table.</summary>
    /// <param name="symptoms">Lines of the symptoms: a heading, then two cells each; comments begin with #.</param>
    /// <param name="rows">Lines of the rows: a heading, then eight cells each.</param>
    /// <exception cref="FormatException">A line is not as it should be, or names a symptom that is not there.</exception>
    public static PatternTable Read(IEnumerable<string> symptoms, IEnumerable<string> rows)
    {
        List<PatternSymptom> read = [.. Cells(symptoms, SymptomCells).Select(c => new PatternSymptom(
            c[0],
            [.. List(c[1]).Select(any => (IReadOnlyList<PatternCondition>)[.. any.Split('&').Select(PatternCondition.Parse)])]))];
        var table = new PatternTable(read, [.. Cells(rows, RowCells).Select(RowOf)]);
        return table.Rows.FirstOrDefault(r => table.FindSymptom(r.Symptom) is null) is { } lost
            ? throw new FormatException($"Row '{lost.Code}' of the pattern table names a symptom that is not there: '{lost.Symptom}'.")
            : table;
    }

    private static PatternRow RowOf(string[] cells) =>
        new(cells[0], cells[1], cells[2], [.. List(cells[3]).Select(PatternCondition.Parse)], List(cells[4]), List(cells[5]), List(cells[6]), List(cells[7]));

    private static string[] List(string cell) => cell.Split(';', StringSplitOptions.RemoveEmptyEntries);

    private static IEnumerable<string[]> Cells(IEnumerable<string> lines, int count) => lines
        .Where(l => l.Length > 0 && l[0] != '#')
        .Skip(1)
        .Select(l => l.Split(','))
        .Select(c => c.Length == count ? c : throw new FormatException($"'{c[0]}' of the pattern table has {c.Length} cells, not {count}."));

    private static List<string> Lines(string file)
    {
        var name = $"{typeof(PatternTable).Namespace}.{file}";
        using var stream = typeof(PatternTable).Assembly.GetManifestResourceStream(name) ?? throw new InvalidOperationException($"{name} is not part of the program.");
        using var reader = new StreamReader(stream);
        var lines = new List<string>();
        while (reader.ReadLine() is { } line)
        {
            lines.Add(line);
        }

        return lines;
    }
}
