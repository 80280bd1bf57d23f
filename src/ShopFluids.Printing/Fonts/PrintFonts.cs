using System.Text;

namespace ShopFluids.Printing.Fonts;

/// <summary>The faces that are built into this assembly: nothing depends on what is installed on the machine.</summary>
public static class PrintFonts
{
    private static readonly byte[][] Files =
    [
        Load("AtkinsonHyperlegibleNext-Regular.ttf"), Load("AtkinsonHyperlegibleNext-Bold.ttf"), Load("AtkinsonHyperlegibleMono-Regular.ttf"),
    ];

    private static readonly TrueTypeFace[] Faces = [.. Files.Select(f => TrueTypeFace.Read(f))];

    /// <summary>Width of a text, in the unit of the size.</summary>
    public static double Measure(string text, PrintFace face, double size) => Measure(text.AsSpan(), face, size);

    /// <inheritdoc cref="Measure(string, PrintFace, double)"/>
    public static double Measure(ReadOnlySpan<char> text, PrintFace face, double size)
    {
        // Every text of a sheet is measured several times, and hardly any holds a character that must be put in another's place.
        var known = Faces[(int)face];
        return known.Measure(known.ShowsAsItIs(text) ? text : Printable(text.ToString(), face), size);
    }

    /// <summary>The measure that charts take; web pages show the same faces, so it fits them as well.</summary>
    public static double MeasureChartText(string text, double size, bool isBold) => Measure(text, isBold ? PrintFace.Bold : PrintFace.Regular, size);

    public static bool Has(Rune character, PrintFace face) => Faces[(int)face].Has(character);

    /// <summary>
    /// The text with what the face can show: composed, control characters as spaces, a plain digit for a raised or lowered one, and
    /// a question mark for a character that the face lacks, so that a reader sees that something stood there.
    /// </summary>
    public static string Printable(string text, PrintFace face)
    {
        var known = Faces[(int)face];
        if (known.ShowsAsItIs(text))
        {
            return text;
        }

        var composed = text.Normalize();
        if (known.HasAll(composed))
        {
            return composed;
        }

        var printable = new StringBuilder(composed.Length);
        foreach (var character in composed.EnumerateRunes())
        {
            printable.Append(known.Has(character) ? character.ToString() : Substitute(character, known));
        }

        return printable.ToString();
    }

    private static string Substitute(Rune character, TrueTypeFace face)
    {
        if (Rune.IsControl(character) || Rune.IsWhiteSpace(character))
        {
            return " ";
        }

        var plain = character.ToString().Normalize(NormalizationForm.FormKC);
        return face.HasAll(plain) ? plain : "?";
    }

    internal static byte[] File(PrintFace face) => Files[(int)face];

    private static byte[] Load(string name)
    {
        using var stream = typeof(PrintFonts).Assembly.GetManifestResourceStream($"ShopFluids.Printing.Fonts.{name}")
            ?? throw new InvalidOperationException($"The face {name} is missing from the assembly.");
        var file = new byte[stream.Length];
        stream.ReadExactly(file);
        return file;
    }
}
