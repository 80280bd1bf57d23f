using ShopFluids.Core.Database;
using ShopFluids.Core.Sumps;

namespace ShopFluids.Core.Setup;

/// <summary>Whether a typed shape is one that level and volume can be worked out for, with its marks in order: intake, full mark, brim.</summary>
internal static class SumpShapeChecks
{
    private const decimal MaximumMm = 20_000m;

    public static void Check(List<FieldError> errors, SumpShape shape, decimal fullMarkMm, decimal pumpIntakeMm)
    {
        if (shape.Kind == GeometryKind.Rectangular)
        {
            SetupFields.Range(errors, "lengthMm", shape.LengthMm, 10, MaximumMm, "mm");
            SetupFields.Range(errors, "widthMm", shape.WidthMm, 10, MaximumMm, "mm");
            SetupFields.Range(errors, "brimMm", shape.BrimMm, 10, 5000, "mm");
            if (errors.Count == 0)
            {
                var full = shape.LengthMm * shape.WidthMm * shape.BrimMm / 1_000_000m;
                SetupFields.Range(errors, "displacedLitres", shape.DisplacedLitres, 0, decimal.Round(full * 0.9m, 1), "L");
            }
        }
        else
        {
            CheckTable(errors, shape);
        }

        if (errors.Count > 0)
        {
            return;
        }

        SetupFields.Range(errors, "fullMarkMm", fullMarkMm, 1, shape.BrimMm, "mm");
        SetupFields.Range(errors, "pumpIntakeMm", pumpIntakeMm, 0, decimal.Max(0, fullMarkMm - 1), "mm");
    }

    private static void CheckTable(List<FieldError> errors, SumpShape shape)
    {
        if (shape.Points.Count < 2)
        {
            errors.Add(new("strappingTable", FieldProblem.OutOfRange, shape.Points.Count, 2, 500));
            return;
        }

        var ascends = shape.Points.Zip(shape.Points.Skip(1)).All(p => p.Second.LevelMm > p.First.LevelMm && p.Second.VolumeLitres > p.First.VolumeLitres);
        if (!ascends || shape.Points[0].LevelMm != 0 || shape.Points[0].VolumeLitres < 0)
        {
            errors.Add(new("strappingTable", FieldProblem.NotAscending));
        }

        if (shape.BrimMm != shape.Points[^1].LevelMm)
        {
            errors.Add(new("brimMm", FieldProblem.OutOfRange, shape.BrimMm, shape.Points[^1].LevelMm, shape.Points[^1].LevelMm, "mm"));
        }
    }
}
