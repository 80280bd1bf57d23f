using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Machines;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Core.Care.Templates;

/// <summary>
/// The shipped templates: what a sump's care plan can begin with, by the kind of its fluid, what its machines do and how the fluid reaches the cut. Each
/// step says where it is from; most are common practice or from memory. Whatever is applied can be stopped and replaced.
/// </summary>
public static class CareTemplates
{
    /// <summary>What a round measures of every water-mixed fluid.</summary>
    public static IReadOnlyList<string> CoreParameters { get; } = [ParameterCodes.Concentration, ParameterCodes.Ph, ParameterCodes.Level];

    /// <summary>What is seen and smelled in passing.</summary>
    public static IReadOnlyList<string> LookParameters { get; } = [ParameterCodes.Odour, ParameterCodes.TrampOil];

    // DGUV: concentration and pH weekly; changes that one sees or smells daily: here with the weekly visit, for the daily look is the operator's.
    private static readonly TemplateStep CoreTest = Test("core", 7, 5, TemplateSource.Dguv, [.. CoreParameters]);
    private static readonly TemplateStep Look = Test("look", 7, 2, TemplateSource.CommonPractice, [.. LookParameters]);

    // HSE: weekly; fewer only where records show that bacteria are under control.
    private static readonly TemplateStep Slide = Test("slide", 7, 5, TemplateSource.Hse, ParameterCodes.Bacteria);
    private static readonly TemplateStep Nitrite = Test("nitrite", 7, 5, TemplateSource.Dguv, ParameterCodes.Nitrite);
    private static readonly TemplateStep Salts = Test("salts", 28, 15, TemplateSource.FromMemory, ParameterCodes.Hardness, ParameterCodes.Chloride, ParameterCodes.Conductivity);
    private static readonly TemplateStep Fines = Test("fines", 7, 3, TemplateSource.FromMemory, ParameterCodes.Fines);
    private static readonly TemplateStep OilLevel = Test("oil-level", 7, 3, TemplateSource.CommonPractice, ParameterCodes.Level, ParameterCodes.Odour);

    // What the first reading after a fill says is what a later one is held against.
    private static readonly TemplateStep AfterFill = new("after-fill", TaskKind.Test, IntervalBasis.AfterFill, 1, 0, ClosedDayPolicy.Later, 5, TemplateSource.CommonPractice) { Parameters = CoreParameters };

    private static readonly TemplateStep Chips = Inspection("chips", 14, 15);
    private static readonly TemplateStep Pump = InspectionMonths("pump-intake", 6, 20);
    private static readonly TemplateStep CheckValve = InspectionMonths("check-valve", 12, 15);
    private static readonly TemplateStep Skimmer = Inspection("empty-skimmer", 7, 5);
    private static readonly TemplateStep WashDown = InspectionMonths("wash-down", 3, 10);
    private static readonly TemplateStep ThroughTool = InspectionMonths("through-tool", 3, 20);
    private static readonly TemplateStep Mist = InspectionMonths("mist", 3, 20);

    /// <summary>The steps of the template, tests first.</summary>
    /// <param name="fluid">The kind of fluid.</param>
    /// <param name="use">What the machines do.</param>
    /// <param name="delivery">How the fluid reaches the cut, of all machines of the sump together.</param>
    public static IReadOnlyList<TemplateStep> For(FluidKind fluid, MachineUse use, Delivery delivery) =>
    [
        .. fluid == FluidKind.StraightOil ? [OilLevel] : Tests(use),
        .. use == MachineUse.Grinding ? [Fines] : Array.Empty<TemplateStep>(),
        .. fluid == FluidKind.StraightOil ? [] : Skimming(fluid, use),
        Filter(use),
        .. use is MachineUse.Machining or MachineUse.Sawing ? [Chips] : Array.Empty<TemplateStep>(),
        Pump,
        .. fluid == FluidKind.StraightOil ? [] : new[] { CheckValve },
        .. delivery.HasFlag(Delivery.WashDown) ? [WashDown] : Array.Empty<TemplateStep>(),
        .. delivery.HasFlag(Delivery.ThroughTool) ? [ThroughTool] : Array.Empty<TemplateStep>(),
        .. delivery.HasFlag(Delivery.Mist) ? [Mist] : Array.Empty<TemplateStep>(),
        Draining(fluid, use),
    ];

    /// <summary>A template's step of a code; null where none is offered under it.</summary>
    public static TemplateStep? Find(string code, FluidKind fluid, MachineUse use, Delivery delivery) => For(fluid, use, delivery).FirstOrDefault(s => s.Code == code);

    /// <summary>What a machine's own words say that it does; a central system where there are several.</summary>
    public static MachineUse UseOf(IReadOnlyList<Machine> machines)
    {
        ArgumentNullException.ThrowIfNull(machines);
        bool Says(string word) => machines.Any(m => $"{m.Process} {m.Name}".Contains(word, StringComparison.OrdinalIgnoreCase));
        return machines.Count > 1 ? MachineUse.Central
            : Says("grind") || Says("hon") || Says("schleif") ? MachineUse.Grinding
            : Says("saw") || Says("säg") ? MachineUse.Sawing
            : MachineUse.Machining;
    }

    private static IEnumerable<TemplateStep> Tests(MachineUse use) => use == MachineUse.Central ? [CoreTest, Look, Slide, Nitrite, Salts, AfterFill] : [CoreTest, Look, Slide, Nitrite, AfterFill];

    // A synthetic does not take oil up: it lies on top, and more of it.
    private static IEnumerable<TemplateStep> Skimming(FluidKind fluid, MachineUse use) =>
        use == MachineUse.Central ? [Done("skim", TaskKind.Skim, fluid == FluidKind.Synthetic ? 3 : 7, 10), Skimmer] : [Done("skim", TaskKind.Skim, fluid == FluidKind.Synthetic ? 5 : 7, 10)];

    // How full it was says when the next is due.
    private static TemplateStep Filter(MachineUse use) => use switch
    {
        MachineUse.Grinding => ByFilter("filter-grinding", 7, 2, 28),
        MachineUse.Central => ByFilter("filter-central", 14, 3, 56),
        _ => ByFilter("filter", 28, 7, 90),
    };

    private static TemplateStep Draining(FluidKind fluid, MachineUse use) => Done("drain-clean", TaskKind.DrainClean, 0, 240) with
    {
        Source = TemplateSource.FromMemory,
        ClosedDays = ClosedDayPolicy.Earlier,
        IntervalMonths = fluid == FluidKind.StraightOil || use == MachineUse.Central ? 24 : use == MachineUse.Grinding ? 6 : 12,
        FirstAfterDays = fluid == FluidKind.StraightOil || use == MachineUse.Central ? 730 : use == MachineUse.Grinding ? 182 : 365,
    };

    private static TemplateStep Test(string code, int days, int minutes, TemplateSource source, params string[] parameters) =>
        new(code, TaskKind.Test, IntervalBasis.CalendarAnchored, days, 0, ClosedDayPolicy.Earlier, minutes, source) { Parameters = parameters };

    private static TemplateStep Done(string code, TaskKind kind, int days, int minutes) =>
        new(code, kind, IntervalBasis.FromLastDone, days, days, ClosedDayPolicy.Later, minutes, TemplateSource.CommonPractice);

    private static TemplateStep ByFilter(string code, int days, int floor, int ceiling) =>
        new(code, TaskKind.ChangeFilter, IntervalBasis.Condition, days, days, ClosedDayPolicy.Later, 20, TemplateSource.FromMemory) { FloorDays = floor, CeilingDays = ceiling, WantedFind = (decimal)FilterState.Full };

    private static TemplateStep Inspection(string code, int days, int minutes) => Done(code, TaskKind.Inspect, days, minutes);

    private static TemplateStep InspectionMonths(string code, int months, int minutes) =>
        Done(code, TaskKind.Inspect, 0, minutes) with { IntervalMonths = months, FirstAfterDays = months * 30, Source = TemplateSource.FromMemory };
}
