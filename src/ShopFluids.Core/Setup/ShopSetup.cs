using System.Collections.Concurrent;
using System.Globalization;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.Limits;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Tuning;
using ShopFluids.Core.Water;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Advice;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Idle;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Rules.Shutdowns;

namespace ShopFluids.Core.Setup;

/// <summary>Everything that changes seldom, as one unchanging snapshot of one set-up version.</summary>
public sealed class ShopSetup
{
    private readonly Dictionary<string, Sump> _sumpsByTag;
    private readonly Dictionary<Guid, Sump> _sumpsById;
    private readonly ILookup<Guid, Machine> _machinesBySump;
    private readonly Dictionary<Guid, Charge> _openCharges;
    private readonly Dictionary<string, Parameter> _parameters;
    private readonly ILookup<Guid, CareStep> _stepsBySump;
    private readonly Dictionary<string, CareStep> _stepsByCause;
    private readonly Dictionary<Guid, ShopCalendar> _ownCalendars;
    private readonly ConcurrentDictionary<(Guid? Sump, Guid? Fluid), TuningsInForce> _tunings = [];
    private readonly ConcurrentDictionary<Guid, IReadOnlyDictionary<string, CareStepFacts>> _stepFacts = [];

    internal ShopSetup(
        long version,
        Site? site,
        IReadOnlyList<Area> areas,
        IReadOnlyList<Machine> machines,
        IReadOnlyList<Sump> sumps,
        IReadOnlyList<WaterSource> waters,
        IReadOnlyList<Fluid> fluids,
        IReadOnlyList<Charge> openCharges,
        IReadOnlyList<Parameter> parameters,
        IReadOnlyList<LimitSet> limitSets,
        IReadOnlyList<RuleSetting> ruleSettings,
        IReadOnlyList<Instrument> instruments,
        IReadOnlyList<CarePlan> plans,
        IReadOnlyList<Shutdown> shutdowns)
    {
        Version = version;
        Site = site;
        Areas = areas;
        Machines = machines;
        Sumps = sumps;
        Waters = waters;
        Fluids = fluids;
        Parameters = parameters;
        LimitSets = limitSets;
        RuleSettings = ruleSettings;
        Instruments = instruments;
        Plans = plans;
        Shutdowns = shutdowns;
        _sumpsByTag = sumps.ToDictionary(s => s.TagKey, StringComparer.Ordinal);
        _sumpsById = sumps.ToDictionary(s => s.Id);
        _machinesBySump = MachinesBySump(sumps, machines);
        _openCharges = openCharges.ToDictionary(c => c.SumpId);
        _parameters = parameters.ToDictionary(p => p.Code, StringComparer.Ordinal);
        _stepsBySump = plans.SelectMany(p => p.Steps.Where(s => !s.IsStopped).Select(s => (p.SumpId, Step: s))).ToLookup(p => p.SumpId, p => p.Step);
        _stepsByCause = plans.SelectMany(p => p.Steps).ToDictionary(s => CareStep.CauseOf(s.Id), StringComparer.Ordinal);
        Calendar = CalendarOf(site, shutdowns.Where(s => s.SumpId is null));
        _ownCalendars = shutdowns.Select(s => s.SumpId).OfType<Guid>().Distinct().ToDictionary(id => id, id => CalendarOf(site, shutdowns.Where(s => s.Concerns(id))));
    }

    public long Version { get; }

    /// <summary>Null until the first set-up.</summary>
    public Site? Site { get; }

    public IReadOnlyList<Area> Areas { get; }

    public IReadOnlyList<Machine> Machines { get; }

    /// <summary>In walking order.</summary>
    public IReadOnlyList<Sump> Sumps { get; }

    public IReadOnlyList<WaterSource> Waters { get; }

    public IReadOnlyList<Fluid> Fluids { get; }

    /// <summary>In their order on pages.</summary>
    public IReadOnlyList<Parameter> Parameters { get; }

    public IReadOnlyList<LimitSet> LimitSets { get; }

    /// <summary>Every version of every setting.</summary>
    public IReadOnlyList<RuleSetting> RuleSettings { get; }

    public IReadOnlyList<Instrument> Instruments { get; }

    public IReadOnlyList<CarePlan> Plans { get; }

    /// <summary>By the first day.</summary>
    public IReadOnlyList<Shutdown> Shutdowns { get; }

    /// <summary>The shop's days; closed also while the whole shop stands.</summary>
    public ShopCalendar Calendar { get; }

    /// <summary>A sump's days: the shop's, closed also while its machine stands.</summary>
    public ShopCalendar CalendarFor(Guid sumpId) => _ownCalendars.GetValueOrDefault(sumpId, Calendar);

    /// <summary>A sump's days as they were when only these shutdowns were known.</summary>
    internal ShopCalendar CalendarFor(Guid sumpId, IEnumerable<Shutdown> known) => CalendarOf(Site, known.Where(s => s.Concerns(sumpId)));

    public Sump? FindSump(string tag) => _sumpsByTag.GetValueOrDefault(Tags.Key(tag));

    public Sump? FindSump(Guid id) => _sumpsById.GetValueOrDefault(id);

    public Parameter? FindParameter(string code) => _parameters.GetValueOrDefault(code);

    public Charge? OpenCharge(Guid sumpId) => _openCharges.GetValueOrDefault(sumpId);

    public Fluid Fluid(Guid id) => Fluids.First(f => f.Id == id);

    public Area Area(Guid id) => Areas.First(a => a.Id == id);

    public WaterSource? Water(Sump sump) => Waters.FirstOrDefault(w => w.Id == sump.WaterSourceId);

    public IReadOnlyList<Machine> MachinesOf(Sump sump) => [.. _machinesBySump[sump.Id]];

    /// <summary>A step as the rules see it: running hours are days by the hours of the machine that runs most.</summary>
    public CareStepFacts FactsOf(CareStep step, Guid sumpId)
    {
        ArgumentNullException.ThrowIfNull(step);
        return step.ToFacts(WeeklyHoursOf(sumpId));
    }

    /// <summary>The steps of a sump's plan as the rules see them, by their causes.</summary>
    public IReadOnlyDictionary<string, CareStepFacts> StepFactsOf(Guid sumpId) =>
        _stepFacts.GetOrAdd(sumpId, id => _stepsBySump[id].ToDictionary(s => CareStep.CauseOf(s.Id), s => FactsOf(s, id), StringComparer.Ordinal));

    /// <summary>Running hours a week of the sump's machine that runs most; 0 where it serves none.</summary>
    public decimal WeeklyHoursOf(Guid sumpId) => FindSump(sumpId) is { } sump ? MachinesOf(sump).Select(m => m.WeeklyHours).DefaultIfEmpty(0).Max() : 0;

    public IReadOnlyList<CareStep> StepsOf(Guid sumpId) => [.. _stepsBySump[sumpId]];

    /// <summary>The step that a cause is of, a stopped one too; null for the cause of a flag or a shutdown.</summary>
    public CareStep? FindStepOf(string cause) => _stepsByCause.GetValueOrDefault(cause);

    /// <summary>What the test of a cause measures, in the order of pages: of a step all its parameters, a stopped one too; of a flag its own.</summary>
    public IReadOnlyList<string> ParametersOfTest(string cause)
    {
        ArgumentNullException.ThrowIfNull(cause);
        var step = FindStepOf(cause);
        var wanted = step is not null ? step.Parameters
            : CareSchedule.IsCauseOfStep(cause) ? []
            : ShutdownWork.IsCause(cause) || cause == CorrectiveWork.CauseOf(IdleRule.RuleCode, "") ? [ParameterCodes.Concentration, ParameterCodes.Ph]
            : cause.Split(':', 2)[1..];
        return [.. Parameters.Select(p => p.Code).Where(c => wanted.Contains(c, StringComparer.Ordinal))];
    }

    /// <summary>The limits in force at an instant: the sump's own for a parameter, else its fluid's.</summary>
    public LimitsInForce LimitsAt(Guid sumpId, Guid fluidId, DateTime atUtc) => new(
        Latest(LimitSets.Where(l => l.SumpId == sumpId), atUtc),
        Latest(LimitSets.Where(l => l.FluidId == fluidId), atUtc));

    /// <summary>What is set of the rules for a sump with a fluid; for a fluid alone; for the whole shop where neither is named.</summary>
    public TuningsInForce TuningsFor(Guid? sumpId, Guid? fluidId) =>
        RuleSettings.Count == 0 ? TuningsInForce.None : _tunings.GetOrAdd((sumpId, fluidId), _ => TuningsFor(sumpId, fluidId, RuleSettings));

    /// <summary>The same as it was when only these settings were known.</summary>
    internal static TuningsInForce TuningsFor(Guid? sumpId, Guid? fluidId, IEnumerable<RuleSetting> known) =>
        new([.. known.Where(s => s.Level switch { RuleLevel.Sump => s.SumpId == sumpId, RuleLevel.Fluid => s.FluidId == fluidId, _ => true })]);

    public static SumpFacts FactsOf(Sump sump) => new(sump.Tag, sump.Geometry, (double)sump.FullMarkMm, (double)sump.PumpIntakeMm);

    public FluidFacts FactsOf(Fluid fluid) => new(
        (double)fluid.TargetPercent,
        (double)fluid.PremixMinimumPercent,
        (double)fluid.PremixMaximumPercent,
        (double)(Site?.MeasurableLitres ?? 0.1m));

    /// <summary>How numbers and days are written.</summary>
    /// <param name="units">A person's own choice; null takes the site's.</param>
    public ShopFormat FormatFor(UnitSystem? units = null) => new(
        CultureInfo.GetCultureInfo(Site?.Culture ?? "en-GB"),
        units ?? Site?.Units ?? UnitSystem.Metric,
        Calendar);

    // In the machines' own order; asked with every reading, so no search through the whole shop.
    private static ILookup<Guid, Machine> MachinesBySump(IReadOnlyList<Sump> sumps, IReadOnlyList<Machine> machines)
    {
        var serving = sumps.SelectMany(s => s.Machines).ToLookup(s => s.MachineId, s => s.SumpId);
        return machines.SelectMany(m => serving[m.Id].Select(sumpId => (SumpId: sumpId, Machine: m))).ToLookup(s => s.SumpId, s => s.Machine);
    }

    private static LimitSet? Latest(IEnumerable<LimitSet> sets, DateTime atUtc) =>
        sets.Where(l => l.ValidFromUtc <= atUtc).OrderByDescending(l => l.ValidFromUtc).ThenByDescending(l => l.Number).FirstOrDefault();

    internal static ShopCalendar CalendarOf(Site? site, IEnumerable<Shutdown> shutdowns)
    {
        var closed = shutdowns.Where(s => !s.IsWithdrawn).SelectMany(s => Enumerable.Range(0, s.ToFacts().Days).Select(s.FirstDay.AddDays)).ToHashSet();
        return site is null
            ? new ShopCalendar(TimeZoneInfo.Utc, 6, new HashSet<DayOfWeek>(), closed)
            : new ShopCalendar(TimeZoneInfo.FindSystemTimeZoneById(site.TimeZoneId), site.DayStartHour, WeekdaysOf(site.ClosedWeekdays), closed) { ShiftEnds = ShiftEndsOf(site) };
    }

    private static IReadOnlyList<TimeOnly> ShiftEndsOf(Site site) => ShiftTimes.TryRead(site.ShiftEnds, site.DayStartHour, out var ends) ? ends : [];

    private static HashSet<DayOfWeek> WeekdaysOf(int bits) => [.. Enum.GetValues<DayOfWeek>().Where(d => (bits & (1 << (int)d)) != 0)];
}
