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
    /// <summary>Works out the changes.</summary>
    /// <param name="input">What the evaluation may look at.</param>
    public static FlagChanges Of(EvaluationInput input)
    {
        var (raised, cleared, after) = (new List<RaisedFlag>(), new List<OpenFlag>(), new List<FlagState>());
        foreach (var measured in input.Reading.Measurements.GroupBy(m => m.Parameter, StringComparer.Ordinal).Where(m => input.IsLatest(m.Key)))
        {
            foreach (var basis in new[] { LimitBasis.Value, LimitBasis.DropFromFirstFill })
            {
                var open = input.Standing.OpenFlags.FirstOrDefault(f => f.Rule == RuleOf(basis) && f.Parameter == measured.Key);
                var rows = input.Limits.Where(l => l.Parameter == measured.Key && l.Basis == basis).ToList();
                Apply(Decide([.. measured], rows, open, input.Standing.FirstFillPh), open, raised, cleared, after);
            }
        }

        var asked = RuleRegistry.Ask(input);
        return new([.. raised, .. asked.Raised], [.. cleared, .. asked.Cleared], [.. after, .. asked.After]);
    }

    private static string RuleOf(LimitBasis basis) => basis == LimitBasis.Value ? LimitRule.Code : FirstFillDropRule.Code;

    // Limits that were taken away end their flag; limits that cannot judge yet leave it as it is.
    private static Decision? Decide(IReadOnlyList<MeasurementFacts> measured, List<ParameterLimits> rows, OpenFlag? open, decimal? firstFillPh)
    {
        var candidates = rows
            .SelectMany(row => measured.Select(m => Candidate.Of(m, row, firstFillPh)))
            .OfType<Candidate>()
            .OrderByDescending(c => c.Measurement.Method == MethodCodes.Titration)
            .ThenByDescending(c => c.Judged.Verdict)
            .ToList();
        if (candidates.Count == 0)
        {
            return open is null || rows.Count > 0 ? null : new(FlagChange.Clear, null);
        }

        var decisive = candidates[0];
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
        public static Candidate? Of(MeasurementFacts measurement, ParameterLimits row, decimal? firstFillPh) =>
            MeasurementJudge.Quantity(measurement.Value, row, firstFillPh) is { } quantity && LimitRow.Judge(quantity, row) is { } judged
                ? new(measurement, row, quantity, judged, firstFillPh)
                : null;

        public RaisedFlag Raise() => Row.Basis == LimitBasis.DropFromFirstFill && FirstFill is { } first
            ? FirstFillDropRule.Raise(first, Measurement.Value, Judged, Row)
            : LimitRule.Raise(Measurement.Value, Judged, Row);
    }
}
