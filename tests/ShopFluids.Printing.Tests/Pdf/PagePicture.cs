using System.Diagnostics;
using System.Globalization;
using System.Text;

namespace ShopFluids.Printing.Tests.Pdf;

/// <summary>A page as poppler paints it: grey values from 0, black, to 255, white, row by row from the top.</summary>
internal sealed record PagePicture(int Width, int Height, byte[] Grey)
{
    private const int DotsPerInch = 50;

    /// <summary>The first page.</summary>
    public static async Task<PagePicture> OfAsync(byte[] pdf, CancellationToken cancellationToken)
    {
        var file = Path.GetTempFileName();
        try
        {
            await File.WriteAllBytesAsync(file, pdf, cancellationToken);
            var start = new ProcessStartInfo("pdftoppm", ["-gray", "-r", DotsPerInch.ToString(CultureInfo.InvariantCulture), "-f", "1", "-l", "1", file]) { RedirectStandardOutput = true, UseShellExecute = false };
            using var process = Process.Start(start) ?? throw new InvalidOperationException("pdftoppm did not start.");
            using var painted = new MemoryStream();
            await process.StandardOutput.BaseStream.CopyToAsync(painted, cancellationToken);
            await process.WaitForExitAsync(cancellationToken);
            return process.ExitCode == 0 ? Read(painted.ToArray()) : throw new InvalidOperationException($"pdftoppm ended with {process.ExitCode}.");
        }
        finally
        {
            File.Delete(file);
        }
    }

    /// <summary>How much of a stretch of the page is dark, 0 to 1; the edges are shares of its width and height.</summary>
    public double Ink(double left, double top, double right, double bottom)
    {
        var (dark, all) = (0, 0);
        for (var y = (int)(top * Height); y < (int)(bottom * Height); y++)
        {
            for (var x = (int)(left * Width); x < (int)(right * Width); x++)
            {
                all++;
                dark += Grey[(y * Width) + x] < 160 ? 1 : 0;
            }
        }

        return all == 0 ? 0 : (double)dark / all;
    }

    // P5, width and height, greatest value, then a byte for each dot.
    private static PagePicture Read(byte[] file)
    {
        var head = Encoding.ASCII.GetString(file, 0, Math.Min(64, file.Length)).Split((char[])[' ', '\n'], 5);
        var (width, height) = (int.Parse(head[1], CultureInfo.InvariantCulture), int.Parse(head[2], CultureInfo.InvariantCulture));
        return new(width, height, file[^(width * height)..]);
    }
}
