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

    public QrDrawing(string content, QRCodeGenerator.ECCLevel level = QRCodeGenerator.ECCLevel.M)
    {
        using var generator = new QRCodeGenerator();
        using var code = generator.CreateQrCode(content, level);
        _matrix = [.. code.ModuleMatrix];
    }

    public void Draw(PrintPage page, double x, double y, double size)
    {
        var matrix = _matrix;
        var module = size / matrix.Count;
        var steps = new List<PathStep>();
        for (var row = 0; row < matrix.Count; row++)
        {
            for (var column = 0; column < matrix.Count; column++)
            {
                var run = 0;
                while (column + run < matrix.Count && matrix[row][column + run])
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

        page.Fill(new PagePath(steps));
    }
}
