using System.Globalization;
using System.Runtime.InteropServices;

namespace ShopFluids.Printing.Drawing;

internal enum PathStepKind
{
    Move = 0,
    Line = 1,
    Curve = 2,
    Close = 3,
}

/// <summary>One step of an outline: to (X, Y), for a cubic curve past two handles.</summary>
[StructLayout(LayoutKind.Auto)]
internal readonly record struct PathStep(PathStepKind Kind, double X, double Y, double X1 = 0, double Y1 = 0, double X2 = 0, double Y2 = 0);

/// <summary>An outline on a page, in points, y downwards.</summary>
internal sealed record PagePath(IReadOnlyList<PathStep> Steps)
{
    // Handle length of the cubic that comes closest to a quarter circle of radius 1.
    private const double Quarter = 0.5522847498;

    public static PagePath Line(double x1, double y1, double x2, double y2) => Open([(x1, y1), (x2, y2)]);

    public static PagePath Open(IReadOnlyList<(double X, double Y)> points) =>
        new([.. points.Select((p, n) => new PathStep(n == 0 ? PathStepKind.Move : PathStepKind.Line, p.X, p.Y))]);

    public static PagePath Closed(IReadOnlyList<(double X, double Y)> points) => new([.. Open(points).Steps, new PathStep(PathStepKind.Close, 0, 0)]);

    public static PagePath Rectangle(double x, double y, double width, double height) =>
        Closed([(x, y), (x + width, y), (x + width, y + height), (x, y + height)]);

    public static PagePath Circle(double x, double y, double radius)
    {
        var h = radius * Quarter;
        return new(
        [
            new(PathStepKind.Move, x + radius, y),
            new(PathStepKind.Curve, x, y + radius, x + radius, y + h, x + h, y + radius),
            new(PathStepKind.Curve, x - radius, y, x - h, y + radius, x - radius, y + h),
            new(PathStepKind.Curve, x, y - radius, x - radius, y - h, x - h, y - radius),
            new(PathStepKind.Curve, x + radius, y, x + h, y - radius, x + radius, y - h),
            new(PathStepKind.Close, 0, 0),
        ]);
    }

    /// <summary>Reads the absolute commands M, L, H, V, Q and Z of SVG path data, which is how our drawings are kept.</summary>
    public static PagePath Parse(string data)
    {
        var steps = new List<PathStep>();
        var (x, y, at) = (0.0, 0.0, 0);
        while (at < data.Length)
        {
            var command = data[at++];
            var end = data.AsSpan(at).IndexOfAnyInRange('A', 'Z');
            var numbers = Numbers(data.AsSpan(at, end < 0 ? data.Length - at : end));
            at = end < 0 ? data.Length : at + end;
            if (command == 'Z')
            {
                steps.Add(new(PathStepKind.Close, 0, 0));
                continue;
            }

            var size = command switch { 'H' or 'V' => 1, 'Q' => 4, _ => 2 };
            for (var n = 0; n + size <= numbers.Count; n += size)
            {
                var (fromX, fromY) = (x, y);
                (x, y) = command switch { 'H' => (numbers[n], y), 'V' => (x, numbers[n]), _ => (numbers[n + size - 2], numbers[n + size - 1]) };
                steps.Add(command switch
                {
                    'M' when n == 0 => new(PathStepKind.Move, x, y),
                    'Q' => Quadratic(fromX, fromY, numbers[n], numbers[n + 1], x, y),
                    'M' or 'L' or 'H' or 'V' => new(PathStepKind.Line, x, y),
                    _ => throw new FormatException($"Path command {command} is not known here."),
                });
            }
        }

        return new(steps);
    }

    public PagePath Placed(double x, double y, double scale) =>
        new([.. Steps.Select(s => new PathStep(
            s.Kind, x + (s.X * scale), y + (s.Y * scale), x + (s.X1 * scale), y + (s.Y1 * scale), x + (s.X2 * scale), y + (s.Y2 * scale)))]);

    private static PathStep Quadratic(double fromX, double fromY, double handleX, double handleY, double x, double y) =>
        new(
            PathStepKind.Curve, x, y,
            fromX + (2 * (handleX - fromX) / 3), fromY + (2 * (handleY - fromY) / 3), x + (2 * (handleX - x) / 3), y + (2 * (handleY - y) / 3));

    private static List<double> Numbers(ReadOnlySpan<char> text)
    {
        var numbers = new List<double>();
        var start = 0;
        for (var at = 1; at <= text.Length; at++)
        {
            if (at == text.Length || text[at] is ' ' or ',' or '-')
            {
                var part = text[start..at].Trim(" ,");
                if (part.Length > 0)
                {
                    numbers.Add(double.Parse(part, CultureInfo.InvariantCulture));
                }

                start = at;
            }
        }

        return numbers;
    }
}
