using System.Buffers;
using System.Text;
using ShopFluids.Printing.Fonts;

namespace ShopFluids.Printing.Layout;

/// <summary>Breaks text into lines at spaces, and inside a word only where the word alone is wider than the line.</summary>
internal static class TextLines
{
    // Widths are added up in floating point; a hair of slack keeps a text on the line that was measured for it.
    private const double Slack = 0.01;

    // What parts a text into lines or words besides single spaces, as string.ReplaceLineEndings knows line ends.
    private static readonly SearchValues<char> Parting = SearchValues.Create("\t\n\r\f\u0085\u2028\u2029");

    public static IReadOnlyList<string> Break(string text, PrintFace face, double size, double width)
    {
        // Nearly every cell of a table: nothing to put right, nothing to break.
        if (!text.AsSpan().ContainsAny(Parting) && !text.StartsWith(' ') && !text.EndsWith(' ') && !text.Contains("  ", StringComparison.Ordinal)
            && PrintFonts.Measure(text, face, size) <= width + Slack)
        {
            return [text];
        }

        var lines = new List<string>();
        foreach (var paragraph in text.ReplaceLineEndings("\n").Split('\n'))
        {
            BreakParagraph(paragraph, face, size, width, lines);
        }

        return lines;
    }

    /// <summary>Width of the longest word: less than this breaks a word.</summary>
    public static double LongestWord(string text, PrintFace face, double size)
    {
        var longest = 0.0;
        foreach (var line in text.AsSpan().EnumerateLines())
        {
            foreach (var word in line.SplitAny(' ', '\t'))
            {
                longest = Math.Max(longest, PrintFonts.Measure(line[word], face, size));
            }
        }

        return longest;
    }

    /// <summary>Width of the longest of its lines, as it stands.</summary>
    public static double LongestLine(string text, PrintFace face, double size)
    {
        var longest = 0.0;
        foreach (var line in text.AsSpan().EnumerateLines())
        {
            longest = Math.Max(longest, PrintFonts.Measure(line, face, size));
        }

        return longest;
    }

    private static void BreakParagraph(string paragraph, PrintFace face, double size, double width, List<string> lines)
    {
        var limit = width + Slack;
        var line = "";
        foreach (var word in Words(paragraph))
        {
            var longer = line.Length == 0 ? word : line + " " + word;
            if (PrintFonts.Measure(longer, face, size) <= limit)
            {
                line = longer;
                continue;
            }

            if (line.Length > 0)
            {
                lines.Add(line);
            }

            line = Fitting(word, face, size, limit, lines);
        }

        lines.Add(line);
    }

    /// <summary>Puts out full lines of an overlong word and returns the rest.</summary>
    private static string Fitting(string word, PrintFace face, double size, double limit, List<string> lines)
    {
        var line = new StringBuilder();
        foreach (var character in word.EnumerateRunes())
        {
            if (line.Length > 0 && PrintFonts.Measure(line.ToString() + character, face, size) > limit)
            {
                lines.Add(line.ToString());
                line.Clear();
            }

            line.Append(character.ToString());
        }

        return line.ToString();
    }

    private static string[] Words(string text) => text.Split([' ', '\t'], StringSplitOptions.RemoveEmptyEntries);
}
