using ShopFluids.Core.Database;
using ShopFluids.Core.Sumps;

namespace ShopFluids.Core.Setup;

/// <summary>
/// Whether a typed shape is one that level, volume and recipe can be worked out for, with its marks in order: intake, full mark, brim; and
/// neither smaller than what the shop can measure nor larger than any sump.
/// </summary>
internal static class SumpShapeChecks
{
    /// <summary>Inside measures of a rectangular sump, mm.</summary>
    public const decimal LeastMm = 10m;
    public const decimal MaximumMm = 20_000m;
    public const decimal HighestBrimMm = 5000m;

    /// <summary>The most that a sump holds to its brim, L: what the recipe of a top-up can be worked out for.</summary>
    private const decimal MaximumLitres = 1_000_000m;

    /// <param name="errors">Takes what is wrong; what is in it already is of other fields.</param>
    /// <param name="measurableLitres">The smallest amount that the shop can measure, L.</param>
    public static void Check(List<FieldError> errors, SumpShape shape, decimal fullMarkMm, decimal pumpIntakeMm, decimal measurableLitres)
    {
        var found = new List<FieldError>();
        if (shape.Kind == GeometryKind.Rectangular)
        {
            CheckBox(found, shape);
        }
        else
        {
            CheckTable(found, shape);
        }

        if (found.Count == 0)
        {
            SetupFields.Range(found, "fullMarkMm", fullMarkMm, 1, shape.BrimMm, "mm");
            SetupFields.Range(found, "pumpIntakeMm", pumpIntakeMm, 0, decimal.Max(0, fullMarkMm - 1), "mm");
        }

        if (found.Count == 0)
        {
            CheckFullMark(found, shape, fullMarkMm, measurableLitres);
        }

        errors.AddRange(found);
    }

    private static void CheckBox(List<FieldError> errors, SumpShape shape)
    {
        SetupFields.Range(errors, "lengthMm", shape.LengthMm, LeastMm, MaximumMm, "mm");
        SetupFields.Range(errors, "widthMm", shape.WidthMm, LeastMm, MaximumMm, "mm");
        SetupFields.Range(errors, "brimMm", shape.BrimMm, LeastMm, HighestBrimMm, "mm");
        if (errors.Count == 0)
        {
            var full = shape.LengthMm * shape.WidthMm * shape.BrimMm / 1_000_000m;
            SetupFields.Range(errors, "displacedLitres", shape.DisplacedLitres, 0, decimal.Round(full * 0.9m, 1), "L");
            var longest = decimal.Round((MaximumLitres + shape.DisplacedLitres) * 1_000_000m / (shape.WidthMm * shape.BrimMm), 1, MidpointRounding.ToZero);
            SetupFields.Range(errors, "lengthMm", shape.LengthMm, LeastMm, longest, "mm");
        }
    }

    // Nothing could be poured into a sump that holds less than one step of what the shop can measure.
    private static void CheckFullMark(List<FieldError> errors, SumpShape shape, decimal fullMarkMm, decimal measurableLitres)
    {
        var litres = (decimal)shape.ToGeometry().VolumeLitresAt((double)fullMarkMm);
        if (litres < measurableLitres)
        {
            errors.Add(new("fullMarkMm", FieldProblem.TooLittleToMeasure, litres, measurableLitres, Unit: "L"));
        }
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

        if (shape.Points[^1].VolumeLitres > MaximumLitres)
        {
            errors.Add(new("strappingTable", FieldProblem.OutOfRange, shape.Points[^1].VolumeLitres, 0, MaximumLitres, "L"));
        }
    }
}
