using ShopFluids.Core.Database;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Setup.MachineLists;

/// <summary>Makes of the lines of a list what is set up, checked as a sump that is added by itself.</summary>
/// <param name="newAreaId">Makes the id of an area that there is not yet.</param>
internal sealed class MachineListReader(ShopSetup setup, UnitSystem units, decimal weeklyHours, Func<Guid> newAreaId)
{
    private static readonly string[] OfTheShape = ["lengthMm", "widthMm", "brimMm", "displacedLitres", "fullMarkMm", "pumpIntakeMm"];
    private readonly List<Area> _newAreas = [];
    private readonly HashSet<string> _sumpTags = new(StringComparer.Ordinal);
    private readonly HashSet<string> _machineTags = new(StringComparer.Ordinal);
    private readonly int _lastPlace = setup.Sumps.Select(s => s.WalkOrder).DefaultIfEmpty(0).Max();

    /// <summary>Areas that the lines name and the shop has not yet, in their order.</summary>
    public IReadOnlyList<Area> NewAreas => _newAreas;

    public IReadOnlyList<ListedSump> Read(IEnumerable<MachineLine> lines) => [.. lines.Select(Read)];

    private ListedSump Read(MachineLine line)
    {
        var errors = new List<FieldError>();
        if (line.HasTooMany)
        {
            errors.Add(new("line", FieldProblem.WrongCount, line.CellCount, MachineLine.Cells, MachineLine.Cells));
        }

        var shape = Shape(errors, line.Measures);
        var fullMark = Number(errors, "fullMarkMm", line.FullMark, 1, shape?.BrimMm ?? SumpShapeChecks.HighestBrimMm);
        var pumpIntake = Number(errors, "pumpIntakeMm", line.PumpIntake, 0, decimal.Max(0, (fullMark ?? shape?.BrimMm ?? SumpShapeChecks.HighestBrimMm) - 1));
        var area = Area(errors, line.Area);
        var (machineTag, machineName, hasOwnTag) = line.Named;
        var sump = new AddSump(
            line.SumpId,
            area?.Id ?? Guid.Empty,
            line.Tag,
            shape ?? new SumpShape(GeometryKind.Rectangular, 0, 0, 0, 0, []),
            fullMark ?? 0,
            pumpIntake ?? 0,
            _lastPlace + line.Number,
            setup.Waters is [var water] ? water.Id : null,
            [new NewMachine(line.MachineId, machineTag, machineName, "", weeklyHours, Delivery.Flood)]);
        var isShapeRead = shape is not null && fullMark is not null && pumpIntake is not null;
        errors.AddRange(AddSumpHandler.Check(sump, setup, [.. setup.Areas, .. _newAreas])
            .Where(e => e.Field switch
            {
                "weeklyHours" => false,
                "area" => area is not null,
                var field => isShapeRead || !OfTheShape.Contains(field, StringComparer.Ordinal),
            }));
        CheckTwice(errors, _sumpTags, "sumpTag", line.Tag);
        CheckTwice(errors, _machineTags, "machineTag", machineTag);

        // Where both have one tag, what is wrong with it is said once.
        if (!hasOwnTag && errors.Exists(e => e.Field == "sumpTag"))
        {
            errors.RemoveAll(e => e.Field == "machineTag");
        }

        return new(line, sump, area is not null && _newAreas.Contains(area), errors);
    }

    private SumpShape? Shape(List<FieldError> errors, IReadOnlyList<string> measures)
    {
        if (measures is not [var length, var width, var height])
        {
            errors.Add(measures is [""] ? new("size", FieldProblem.Missing) : new("size", FieldProblem.NotThreeMeasures, Low: SumpShapeChecks.LeastMm, High: SumpShapeChecks.MaximumMm, Unit: "mm"));
            return null;
        }

        var lengthMm = Number(errors, "lengthMm", length, SumpShapeChecks.LeastMm, SumpShapeChecks.MaximumMm);
        var widthMm = Number(errors, "widthMm", width, SumpShapeChecks.LeastMm, SumpShapeChecks.MaximumMm);
        var brimMm = Number(errors, "brimMm", height, SumpShapeChecks.LeastMm, SumpShapeChecks.HighestBrimMm);
        return lengthMm is { } l && widthMm is { } w && brimMm is { } h ? new(GeometryKind.Rectangular, l, w, h, 0, []) : null;
    }

    private decimal? Number(List<FieldError> errors, string field, string typed, decimal low, decimal high)
    {
        if (QuantityInput.TryRead(typed, QuantityKind.Length, units, out var read))
        {
            return read;
        }

        errors.Add(typed.Length == 0 ? new(field, FieldProblem.Missing) : new(field, FieldProblem.NotANumber, Low: low, High: high, Unit: "mm", Detail: typed));
        return null;
    }

    private Area? Area(List<FieldError> errors, string name)
    {
        var before = errors.Count;
        TextChecks.Check(errors, "area", name, 120);
        if (errors.Count > before)
        {
            return null;
        }

        if (setup.Areas.Concat(_newAreas).FirstOrDefault(a => string.Equals(a.Name, name, StringComparison.OrdinalIgnoreCase)) is { } known)
        {
            return known;
        }

        var made = new Area(newAreaId(), setup.Site?.Id ?? Guid.Empty, name, setup.Areas.Select(a => a.WalkOrder).DefaultIfEmpty(0).Max() + _newAreas.Count + 1);
        _newAreas.Add(made);
        return made;
    }

    private static void CheckTwice(List<FieldError> errors, HashSet<string> seen, string field, string tag)
    {
        if (!seen.Add(Tags.Key(tag)) && !errors.Exists(e => e.Field == field))
        {
            errors.Add(new(field, FieldProblem.NotUnique, Detail: tag));
        }
    }
}
