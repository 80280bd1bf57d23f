using ShopFluids.Rules.Advice;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.FirstFillDrop;
using ShopFluids.Rules.Limit;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Rules.Judging;

/// <summary>What a reading does to the flags: at most one is open for each rule and parameter.</summary>
/// <param name="Raised">New flags.</param>
/// <param name="Cleared">Flags that end, replaced ones among them.</param>
/// <param name="After">The flags on what was measured that are open afterwards.</param>
public sealed record FlagChanges(IReadOnlyList<RaisedFlag> Raised, IReadOnlyList<OpenFlag> Cleared, IReadOnlyList<FlagState> After)
{
    /// <summary>A flag that is open afterwards, on what was measured or left as it was, says that the fluid is past mending.</summary>
    public bool MustDrain { get; init; }

    /// <summary>No flag says so any more.</summary>
    public bool IsSparedTheDrain => !MustDrain && Cleared.Any(CorrectiveWork.IsPastMending);

    /// <summary>Works out the changes.</summary>
    /// <param name="input">What the evaluation may look at.</param>
    public static FlagChanges Of(EvaluationInput input)
    {
        var (raised, cleared, after) = (new List<RaisedFlag>(), new List<OpenFlag>(), new List<FlagState>());
        foreach (var parameter in Measured(input))
        {
            foreach (var basis in MeasurementJudge.Bases)
            {
                var open = input.Standing.OpenFlag(RuleOf(basis), parameter);
                Apply(Decide(input, parameter, basis, open), open, raised, cleared, after);
            }
        }

        var asked = RuleRegistry.Ask(input);
        cleared.AddRange(asked.Cleared);
        after.AddRange(asked.After);
        return new([.. raised, .. asked.Raised], cleared, after)
        {
            MustDrain = MustBeDrained(input, cleared, after),
        };
    }

    /// <summary>The same without what is not raised again, because a supervisor has closed it.</summary>
    /// <param name="input">What the evaluation may look at.</param>
    /// <param name="closed">Rule and parameter of what was closed.</param>
    public FlagChanges Without(EvaluationInput input, IReadOnlySet<(string Rule, string Parameter)> closed)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(closed);
        var after = After.Where(f => !(f.IsNew && closed.Contains((f.Rule, f.Parameter)))).ToList();
        return new([.. Raised.Where(f => !closed.Contains((f.Rule, f.Parameter)))], Cleared, after) { MustDrain = MustBeDrained(input, Cleared, after) };
    }

    private static bool MustBeDrained(EvaluationInput input, IReadOnlyList<OpenFlag> cleared, List<FlagState> after) =>
        after.Exists(f => CorrectiveWork.IsPastMending(f.Rule, f.Parameter, f.Direction, f.Severity)) || input.Standing.OpenFlags.Any(f => CorrectiveWork.IsPastMending(f) && !cleared.Contains(f));

    private static string RuleOf(LimitBasis basis) => basis == LimitBasis.Value ? LimitRule.Code : FirstFillDropRule.Code;

    // Each parameter once, with what this reading has the latest word on.
    private static List<string> Measured(EvaluationInput input)
    {
        var parameters = new List<string>(input.Reading.Measurements.Count);
        foreach (var measurement in input.Reading.Measurements)
        {
            if (!parameters.Contains(measurement.Parameter) && input.IsLatest(measurement.Parameter))
            {
                parameters.Add(measurement.Parameter);
            }
        }

        return parameters;
    }

    // Limits that were taken away end their flag; limits that cannot judge yet leave it as it is.
    private static Decision? Decide(EvaluationInput input, string parameter, LimitBasis basis, OpenFlag? open)
    {
        var (hasRow, found) = (false, default(Candidate));
        foreach (var row in input.Limits)
        {
            if (row.Basis != basis || row.Parameter != parameter)
            {
                continue;
            }

            hasRow = true;
            foreach (var measurement in input.Reading.Measurements)
            {
                if (measurement.Parameter == parameter && Candidate.Of(measurement, row, input.Standing.FirstFillPh) is { } candidate && candidate.DecidesOver(found))
                {
                    found = candidate;
                }
            }
        }

        if (found is not { } decisive)
        {
            return open is null || hasRow ? null : new(FlagChange.Clear, null);
        }

        var openSeverity = open?.Severity ?? Verdict.NotMeasured;
        var openDirection = open is null ? Direction.None : decisive.Row.Basis == LimitBasis.Value ? open.Direction : Direction.High;
        return new(Hysteresis.Decide(decisive.Quantity, decisive.Judged, decisive.Row, openSeverity, openDirection), decisive);
    }

    private static void Apply(Decision? decision, OpenFlag? open, List<RaisedFlag> raised, List<OpenFlag> cleared, List<FlagState> after)
    {
        if (decision is null)
        {
            return;
        }

        if (open is not null && decision.Change is (FlagChange.Clear or FlagChange.Replace))
        {
            cleared.Add(open);
        }

        if (decision is { Change: FlagChange.Raise or FlagChange.Replace, Decisive: { } beyond })
        {
            var flag = beyond.Raise();
            raised.Add(flag);
            after.Add(new(flag.Rule, flag.Parameter, flag.Severity, flag.Direction, IsNew: true, IsBeyond: true));
        }

        if (open is not null && decision is { Change: FlagChange.Keep, Decisive: { } kept })
        {
            after.Add(new(open.Rule, open.Parameter, open.Severity, open.Direction, IsNew: false, kept.Judged.IsBeyond));
        }
    }

    private sealed record Decision(FlagChange Change, Candidate? Decisive);

    private sealed record Candidate(MeasurementFacts Measurement, ParameterLimits Row, decimal Quantity, Judgement Judged, decimal? FirstFill)
    {
        private int Rank => Measurement.Method == MethodCodes.Titration ? 1 : 0;

        public static Candidate? Of(MeasurementFacts measurement, ParameterLimits row, decimal? firstFillPh) =>
            MeasurementJudge.Quantity(measurement.Value, row, firstFillPh) is { } quantity && LimitRow.Judge(quantity, row) is { } judged
                ? new(measurement, row, quantity, judged, firstFillPh)
                : null;

        // Titration decides, then what is judged worse; of equals the first.
        public bool DecidesOver(Candidate? other) =>
            other is null || (Rank, Judged.Verdict).CompareTo((other.Rank, other.Judged.Verdict)) > 0;

        public RaisedFlag Raise() => Row.Basis == LimitBasis.DropFromFirstFill && FirstFill is { } first
            ? FirstFillDropRule.Raise(first, Measurement.Value, Judged, Row)
            : LimitRule.Raise(Measurement.Value, Judged, Row);
    }
}
