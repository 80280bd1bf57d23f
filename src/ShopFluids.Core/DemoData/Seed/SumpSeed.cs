using ShopFluids.Core.Machines;
using ShopFluids.Core.Sumps;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Core.DemoData.Seed;

/// <param name="Plan">One of care-plans.json.</param>
/// <param name="TestedBeforeToday">How many days before today the weekly test falls, 0 to 6. 0 is due today, whatever weekday that is.</param>
/// <param name="FirstDrainDay">When it is first drained and cleaned, counted from today.</param>
internal sealed record SumpSeed(
    string Tag,
    string Area,
    string Water,
    string Fluid,
    string Refractometer,
    string PhMeter,
    string Plan,
    int TestedBeforeToday,
    int FirstDrainDay,
    ShapeSeed Shape,
    decimal FullMarkMm,
    decimal PumpIntakeMm,
    IReadOnlyList<MachineSeed> Machines,
    HabitSeed Habits);

/// <param name="Points">Pairs of level in mm and volume in L; a rectangular sump has none.</param>
internal sealed record ShapeSeed(decimal LengthMm, decimal WidthMm, decimal BrimMm, decimal DisplacedLitres, IReadOnlyList<IReadOnlyList<decimal>>? Points = null)
{
    public SumpShape ToShape() => Points is null
        ? new(GeometryKind.Rectangular, LengthMm, WidthMm, BrimMm, DisplacedLitres, [])
        : new(GeometryKind.StrappingTable, 0, 0, BrimMm, 0, [.. Points.Select(p => new StrappingRow(p[0], p[1]))]);
}

internal sealed record MachineSeed(string Tag, string Name, string Process, decimal WeeklyHours, Delivery Delivery);

/// <summary>How a sump behaves on a working day.</summary>
/// <param name="EvaporationLitres">Water lost to the air.</param>
/// <param name="CarryOffLitres">Mix lost on parts and chips.</param>
/// <param name="PhFall">Fall of pH that topping up has to make good.</param>
/// <param name="OilPercent">Growth of the tramp oil, % of the surface.</param>
internal sealed record HabitSeed(double EvaporationLitres, double CarryOffLitres, double PhFall, double OilPercent);

/// <summary>A step of a care plan.</summary>
internal sealed record StepSeed(TaskKind Kind, IntervalBasis Basis, int IntervalDays, int Minutes, IReadOnlyList<string>? Parameters = null);
