using System.Text;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Setup.Sumps;

/// <summary>A strapping table as rows of text: level and volume, apart by a space, a tab or a semicolon, as a spreadsheet pastes them.</summary>
public static class StrappingText
{
    private static readonly char[] Gaps = [' ', '\t', ';', '\u00a0'];

    /// <param name="badLine">The first line that is no row, when false.</param>
    public static bool TryRead(string text, UnitSystem units, out IReadOnlyList<StrappingRow> rows, out string badLine)
    {
        ArgumentNullException.ThrowIfNull(text);
        var read = new List<StrappingRow>();
        (rows, badLine) = (read, "");
        foreach (var line in text.ReplaceLineEndings("\n").Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            if (line.Split(Gaps, StringSplitOptions.RemoveEmptyEntries) is not [var level, var volume]
                || !QuantityInput.TryRead(level, QuantityKind.Length, units, out var levelMm)
                || !QuantityInput.TryRead(volume, QuantityKind.Volume, units, out var litres))
            {
                badLine = line;
                return false;
            }

            read.Add(new StrappingRow(levelMm, litres));
        }

        return true;
    }

    public static string Write(IEnumerable<StrappingRow> rows, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(rows);
        ArgumentNullException.ThrowIfNull(format);
        return rows.Aggregate(new StringBuilder(), (text, row) => text
            .Append(QuantityInput.Write(row.LevelMm, QuantityKind.Length, format.Units, format.Culture)).Append(' ')
            .Append(QuantityInput.Write(row.VolumeLitres, QuantityKind.Volume, format.Units, format.Culture)).Append('\n')).ToString();
    }
}
