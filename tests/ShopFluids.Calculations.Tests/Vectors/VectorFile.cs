using System.Globalization;
using System.Text;
using Xunit;

namespace ShopFluids.Calculations.Tests.Vectors;

/// <summary>Reads the check values: comment lines with the source, a heading, rows. Numbers are written with a point, whatever the culture.</summary>
public static class VectorFile
{
    public static IReadOnlyList<string[]> Rows(string name)
    {
        var lines = File.ReadAllLines(Path.Combine(AppContext.BaseDirectory, "Vectors", name + ".csv"));
        var rows = lines.Where(line => line.Length > 0 && line[0] != '#').Skip(1).Select(Fields).ToList();
        Assert.NotEmpty(rows);
        return rows;
    }

    /// <summary>Theory data: one case per row, its fields as text.</summary>
    public static TheoryData<string[]> Theory(string name) => [.. Rows(name)];

    public static double Number(string text) => double.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture);

    private static string[] Fields(string line)
    {
        var fields = new List<string>();
        var field = new StringBuilder();
        var quoted = false;
        foreach (var character in line)
        {
            if (character == '"')
            {
                quoted = !quoted;
            }
            else if (character == ',' && !quoted)
            {
                fields.Add(field.ToString());
                field.Clear();
            }
            else
            {
                field.Append(character);
            }
        }

        fields.Add(field.ToString());
        return [.. fields];
    }
}
