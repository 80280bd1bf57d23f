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

    // On the pages of a sheet it stands in one place, and its outline is by far the largest thing on them.
    private (double X, double Y, double Size, PagePath Outline)? _placed;

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
            _placed = placed = (x, y, size, OutlineAt(x, y, size));
        }

        page.Fill(placed.Outline);
    }

    // One outline: rows filled one by one would show light seams wherever their edges lie between two pixels.
    private PagePath OutlineAt(double x, double y, double size)
    {
        var module = size / _matrix.Count;
        var steps = new List<PathStep>();
        for (var row = 0; row < _matrix.Count; row++)
        {
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
        }

        return new PagePath(steps);
    }
}
