using ShopFluids.Calculations.Volumes;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Tests;

/// <summary>Facts for tests; each argument has a harmless default.</summary>
internal static class Some
{
    /// <summary>A Wednesday, 08:00 in Berlin.</summary>
    public static readonly DateTime Now = new(2026, 3, 4, 7, 0, 0, DateTimeKind.Utc);

    public static readonly Guid StepId = Id(900);

    public static Guid Id(int number) => new(number, 0, 0, [0, 0, 0, 0, 0, 0, 0, 0]);

    public static ShopCalendar Calendar(string zone = "Europe/Berlin", DayOfWeek[]? closed = null, DateOnly[]? closedDays = null, int dayStartHour = 6) =>
        new(
            TimeZoneInfo.FindSystemTimeZoneById(zone),
            dayStartHour,
            (closed ?? [DayOfWeek.Saturday, DayOfWeek.Sunday]).ToHashSet(),
            (closedDays ?? []).ToHashSet());

    /// <summary>A box of 1 L for each millimetre: 1000 x 1000 mm, brim at 400 mm, full mark at 300 mm, intake at 80 mm.</summary>
    public static SumpFacts Sump() => new("S-07", new RectangularSump(1000, 1000, 400), 300, 80);

    public static FluidFacts Fluid() => new(6, 0, 12, 0.5);

    public static MeasurementFacts Measured(string parameter, decimal value, string method = "") => new(parameter, method, value, 0m) { Decimals = value.Scale };

    public static ReadingFacts Reading(params MeasurementFacts[] measurements) => new(Id(1), Now, measurements);

    public static StandingFacts Standing(
        decimal? firstFillPh = null,
        OpenFlag[]? flags = null,
        OpenTask[]? tasks = null,
        (string Parameter, LatestValue Value)[]? latest = null) =>
        new(Now.AddDays(-30), firstFillPh, (latest ?? []).ToDictionary(l => l.Parameter, l => l.Value), flags ?? [], tasks ?? []);

    public static LatestValue Latest(decimal value, DateTime takenAt) => new(value, 0m, takenAt, Verdict.InRange, Direction.None);

    public static OpenFlag Flag(string rule, string parameter, Verdict severity, Direction direction, int id = 100) =>
        new(Id(id), rule, parameter, severity, direction, new Dictionary<string, decimal>());

    public static OpenTask Task(TaskKind kind, string cause, DateTime? dueAt = null, int id = 200) => new(Id(id), kind, cause, dueAt ?? Now.AddHours(10));

    public static CareStepFacts Step(
        TaskKind kind = TaskKind.Test,
        IntervalBasis basis = IntervalBasis.CalendarAnchored,
        int intervalDays = 7,
        DateOnly? anchor = null,
        ClosedDayPolicy closedDays = ClosedDayPolicy.Later,
        Guid? id = null,
        string[]? parameters = null) =>
        new(id ?? StepId, kind, basis, intervalDays, anchor ?? new(2026, 3, 4), closedDays, parameters ?? []);

    public static ParameterLimits Limits(
        string parameter = ParameterCodes.Concentration,
        decimal? actionLow = 4m,
        decimal? warningLow = 5m,
        decimal? warningHigh = 8m,
        decimal? actionHigh = 9m,
        bool edgeIsBeyond = false,
        decimal clearMargin = 0.2m,
        LimitBasis basis = LimitBasis.Value) =>
        new(parameter, basis, actionLow, warningLow, null, null, warningHigh, actionHigh, edgeIsBeyond, clearMargin);

    public static IReadOnlyDictionary<string, RuleTuning> NoTunings { get; } = new Dictionary<string, RuleTuning>();

    public static IReadOnlyDictionary<string, RuleTuning> Tuned(string rule, params (string Name, decimal Value)[] numbers) =>
        new Dictionary<string, RuleTuning> { [rule] = new(rule, IsOn: true, numbers.ToDictionary(n => n.Name, n => n.Value)) };

    public static IReadOnlyDictionary<string, RuleTuning> SwitchedOff(string rule) =>
        new Dictionary<string, RuleTuning> { [rule] = new(rule, IsOn: false, new Dictionary<string, decimal>()) };

    public static EvaluationInput Input(
        ReadingFacts reading,
        StandingFacts? standing = null,
        ParameterLimits[]? limits = null,
        CareStepFacts[]? plan = null,
        ShopCalendar? calendar = null,
        DateTime? now = null) =>
        new(Sump(), Fluid(), standing ?? Standing(), reading, limits ?? [Limits()], plan ?? [], calendar ?? Calendar(), now ?? Now);

    public static Evaluation Evaluate(
        MeasurementFacts measurement,
        StandingFacts? standing = null,
        params ParameterLimits[] limits) =>
        RulesService.Evaluate(Input(Reading(measurement), standing, limits.Length == 0 ? null : limits));
}
