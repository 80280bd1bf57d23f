using System.Collections;
using QRCoder;

namespace ShopFluids.Printing.Drawing;

/// <summary>A QR code, drawn as filled rectangles, one for each run of dark modules.</summary>
internal sealed class QrDrawing
{
    /// <summary>A quarter of the code may be lost: labels beside a machine get splashed and scratched.</summary>
    public const QRCodeGenerator.ECCLevel ForLabels = QRCodeGenerator.ECCLevel.Q;

    // The matrix carries its own quiet zone of four modules on each side.
    private readonly List<BitArray> _matrix;

    // On the pages of a sheet it stands in one place.
    private (double X, double Y, double Size, IReadOnlyList<PagePath> Rows)? _placed;

    public QrDrawing(string content, QRCodeGenerator.ECCLevel level = QRCodeGenerator.ECCLevel.M)
    {
        using var generator = new QRCodeGenerator();
        using var code = generator.CreateQrCode(content, level);
        _matrix = [.. code.ModuleMatrix];
    }

    public void Draw(PrintPage page, double x, double y, double size)
    {
        if (_placed is not { } placed || (placed.X, placed.Y, placed.Size) != (x, y, size))
        {
            _placed = placed = (x, y, size, [.. RowsAt(x, y, size)]);
        }

        foreach (var row in placed.Rows)
        {
            page.Fill(row);
        }
    }

    // An outline for each row: one for the whole code would be large enough to be collected only with everything else.
    private IEnumerable<PagePath> RowsAt(double x, double y, double size)
    {
        var module = size / _matrix.Count;
        for (var row = 0; row < _matrix.Count; row++)
        {
            var steps = new List<PathStep>();
            for (var column = 0; column < _matrix.Count; column++)
            {
                var run = 0;
                while (column + run < _matrix.Count && _matrix[row][column + run])
                {
                    run++;
                }

                if (run > 0)
                {
                    steps.AddRange(PagePath.Rectangle(x + (column * module), y + (row * module), run * module, module).Steps);
                    column += run;
                }
            }

            if (steps.Count > 0)
            {
                yield return new PagePath(steps);
            }
        }
    }
}
