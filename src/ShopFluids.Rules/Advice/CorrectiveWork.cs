using ShopFluids.Rules.FirstFillDrop;
using ShopFluids.Rules.Limit;
using ShopFluids.Rules.Registry;
using ShopFluids.Rules.RunDry;

namespace ShopFluids.Rules.Advice;

/// <summary>The work that answers a flag. Each row is data: the rule, the parameter, the side, the severity, and the kinds of work.</summary>
public static class CorrectiveWork
{
    private static readonly TaskKind[] LookForTheCause = [TaskKind.Inspect];

    // DGUV: DGUV Regel 109-003, Annex 3. HSE: metalworking fluid page on bacteria. The rest is common practice without a source.
    private static readonly Row[] Rows =
    [
        new(LimitRule.Code, ParameterCodes.Concentration, Direction.Low, Verdict.Warning, [TaskKind.Adjust]),
        new(LimitRule.Code, ParameterCodes.Concentration, Direction.Low, Verdict.Action, [TaskKind.Adjust]),
        new(LimitRule.Code, ParameterCodes.Concentration, Direction.High, Verdict.Warning, [TaskKind.Adjust]),
        new(LimitRule.Code, ParameterCodes.Concentration, Direction.High, Verdict.Action, [TaskKind.Adjust]),
        new(LimitRule.Code, ParameterCodes.Level, Direction.Low, Verdict.Warning, [TaskKind.Adjust]),
        new(LimitRule.Code, ParameterCodes.Level, Direction.Low, Verdict.Action, [TaskKind.Adjust]),

        // Another person or method first: an electrode under tramp oil reads low (DGUV 7.1.1). Once confirmed, the cause.
        new(LimitRule.Code, ParameterCodes.Ph, Direction.Low, Verdict.Warning, [TaskKind.Test]) { WhenConfirmed = LookForTheCause },

        // DGUV no. 2: over 0.5 what the maker recommends, over 1.0 exchange the fluid and clean the circuit.
        new(FirstFillDropRule.Code, ParameterCodes.Ph, Direction.Low, Verdict.Warning, [TaskKind.Inspect]),
        new(FirstFillDropRule.Code, ParameterCodes.Ph, Direction.Low, Verdict.Action, [TaskKind.DrainClean]),

        // DGUV no. 5: exchange, partial exchange or inhibitor.
        new(LimitRule.Code, ParameterCodes.Nitrite, Direction.High, Verdict.Action, [TaskKind.DrainClean]),

        // HSE: from 10^4 review and adjust, from 10^6 normally drain and clean.
        new(LimitRule.Code, ParameterCodes.Bacteria, Direction.High, Verdict.Warning, [TaskKind.Inspect]),
        new(LimitRule.Code, ParameterCodes.Bacteria, Direction.High, Verdict.Action, [TaskKind.DrainClean]),

        // DGUV no. 1: skim oil, check filter, aerate fluid.
        new(LimitRule.Code, ParameterCodes.TrampOil, Direction.High, Verdict.Warning, [TaskKind.Skim]),
        new(LimitRule.Code, ParameterCodes.TrampOil, Direction.High, Verdict.Action, [TaskKind.Skim]),
        new(LimitRule.Code, ParameterCodes.Odour, Direction.High, Verdict.Warning, [TaskKind.Skim, TaskKind.Circulate]),
        new(LimitRule.Code, ParameterCodes.Odour, Direction.High, Verdict.Action, [TaskKind.DrainClean]),
        new(LimitRule.Code, ParameterCodes.Fines, Direction.High, Verdict.Warning, [TaskKind.ChangeFilter]),
        new(LimitRule.Code, ParameterCodes.Fines, Direction.High, Verdict.Action, [TaskKind.ChangeFilter]),
    ];

    /// <summary>The kinds of work for a flag; what has no row of its own (foam, temperature, pH high, a shop's own parameter): look for the cause.</summary>
    /// <param name="rule">The rule's code.</param>
    /// <param name="parameter">The parameter's code.</param>
    /// <param name="direction">The flag's side.</param>
    /// <param name="severity">The flag's severity.</param>
    /// <param name="isConfirmed">The flag was open before, and this reading found the value still beyond.</param>
    public static IReadOnlyList<TaskKind> For(string rule, string parameter, Direction direction, Verdict severity, bool isConfirmed)
    {
        if (RuleRegistry.Find(rule) is { } registered)
        {
            return registered.WorkFor(new(parameter, severity, direction), isConfirmed);
        }

        var row = Array.Find(Rows, r => r.Rule == rule && r.Parameter == parameter && r.Direction == direction && r.Severity == severity);
        return row is null ? LookForTheCause : isConfirmed ? row.WhenConfirmed : row.WhenRaised;
    }

    /// <summary>
    /// Whether skipping this work is for a supervisor alone: draining a sump whose fluid is beyond an action limit is not put off by who
    /// stands before it. Common practice, no source.
    /// </summary>
    /// <param name="kind">The kind of work.</param>
    /// <param name="openFlags">The flags that are open on the sump.</param>
    public static bool OnlyASupervisorSkips(TaskKind kind, IReadOnlyList<Facts.OpenFlag> openFlags)
    {
        ArgumentNullException.ThrowIfNull(openFlags);
        return kind == TaskKind.DrainClean && openFlags.Any(f => AsksToDrain(f.Rule, f.Parameter, f.Direction, f.Severity));
    }

    /// <summary>
    /// Whether a flag says that the fluid is past mending: beyond an action limit that asks for draining and for nothing else, which nitrite does
    /// not (partial exchange or inhibitor: DGUV no. 5). Until it is drained nothing is added to it: common practice, no source.
    /// </summary>
    /// <param name="rule">The rule's code.</param>
    /// <param name="parameter">The parameter's code.</param>
    /// <param name="direction">The flag's side.</param>
    /// <param name="severity">The flag's severity.</param>
    public static bool IsPastMending(string rule, string parameter, Direction direction, Verdict severity) =>
        parameter != ParameterCodes.Nitrite && AsksToDrain(rule, parameter, direction, severity);

    /// <summary>The same of an open flag.</summary>
    /// <param name="flag">The flag.</param>
    internal static bool IsPastMending(Facts.OpenFlag flag) => IsPastMending(flag.Rule, flag.Parameter, flag.Direction, flag.Severity);

    /// <summary>
    /// Whether that would be in vain before a draining: putting right what will be thrown away. Filling up against a pump that runs dry is not, as
    /// long as the machine runs.
    /// </summary>
    /// <param name="kind">The kind of work.</param>
    /// <param name="cause">What asks for it.</param>
    internal static bool IsVainBeforeADraining(TaskKind kind, string cause) =>
        kind == TaskKind.Adjust && !cause.StartsWith(CauseOf(RunDryRule.RuleCode, ""), StringComparison.Ordinal);

    private static bool AsksToDrain(string rule, string parameter, Direction direction, Verdict severity) =>
        severity == Verdict.Action && For(rule, parameter, direction, severity, isConfirmed: false).Contains(TaskKind.DrainClean);

    /// <summary>Whether a flag asks first of all for a second look, by another person or method.</summary>
    /// <param name="cause">The cause that its work carries.</param>
    public static bool AsksForASecondLook(string cause) =>
        Array.Exists(Rows, r => CauseOf(r.Rule, r.Parameter) == cause && r.WhenRaised.Contains(TaskKind.Test))
        || RuleRegistry.All.Any(r => r.AsksForASecondLook && cause.StartsWith(CauseOf(r.Code, ""), StringComparison.Ordinal)
            && r.WorkFor(new(cause[(r.Code.Length + 1)..], Verdict.Warning, Direction.None), isConfirmed: false).Contains(TaskKind.Test));

    /// <summary>The cause that the work for a flag carries.</summary>
    public static string CauseOf(string rule, string parameter) => $"{rule}:{parameter}";

    /// <summary>Work that is done to the sump as a whole: asked for once after a reading, whatever number of flags ask for it.</summary>
    public static bool IsOnWholeSump(TaskKind kind) =>
        kind is TaskKind.Adjust or TaskKind.Skim or TaskKind.ChangeFilter or TaskKind.Circulate or TaskKind.DrainClean;

    /// <summary>
    /// Work that need not be asked for again while it is open for another flag. Adjusting is not: the new reading has a new recipe.
    /// </summary>
    public static bool OneIsEnough(TaskKind kind) => IsOnWholeSump(kind) && kind != TaskKind.Adjust;

    private sealed record Row(string Rule, string Parameter, Direction Direction, Verdict Severity, TaskKind[] WhenRaised)
    {
        public TaskKind[] WhenConfirmed { get; init; } = WhenRaised;
    }
}
