using ShopFluids.Core.Care;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Limits;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Tuning;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.LateArrival;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Readings;

/// <summary>Puts a checked reading before the rules.</summary>
internal sealed record ReadingJudge(ShopSetup Setup, Sump Sump, Charge Charge, LimitsInForce Limits, TuningsInForce Tunings, IReadOnlyList<CareStep> Steps, ShopCalendar Calendar)
{
    public static ReadingJudge For(ShopSetup setup, Sump sump, Charge charge, DateTime takenAtUtc) =>
        new(setup, sump, charge, setup.LimitsAt(sump.Id, charge.FluidId, takenAtUtc), setup.TuningsFor(sump.Id, charge.FluidId), setup.StepsOf(sump.Id), setup.CalendarFor(sump.Id));

    public static ReadingFacts FactsOf(RecordReading command, IReadOnlyList<WorkedMeasurement> worked) =>
        new(command.Id, command.TakenAtUtc, [.. worked.Select(w => new MeasurementFacts(w.Parameter.Code, w.Method, w.Value, w.Uncertainty) { Decimals = w.Parameter.Decimals })]);

    /// <param name="late">What else is known of the charge, where the reading arrives after later ones or corrects one.</param>
    public Evaluation Judge(ReadingFacts reading, StandingFacts standing, ChargeHistory history, DateTime nowUtc, LateArrivals? late = null)
    {
        var evaluation = RulesService.Evaluate(Input(reading, late is null ? standing : late.Without(standing), history, nowUtc));
        return late is null ? evaluation : LateFindings.Settle(late.CaseOf(this, Input(reading, standing, history, nowUtc)), evaluation);
    }

    /// <summary>A stored reading once more, by the limits and settings of this judge.</summary>
    public SecondJudgement JudgeAgain(ReadingFacts reading, StandingFacts standing, ChargeHistory history, IReadOnlySet<(string Rule, string Parameter)> closed, DateTime nowUtc) =>
        RulesService.JudgeAgain(Input(reading, standing, history, nowUtc), closed);

    /// <summary>What the rules look at.</summary>
    public EvaluationInput Input(ReadingFacts reading, StandingFacts standing, ChargeHistory history, DateTime nowUtc) =>
        new(
            ShopSetup.FactsOf(Sump),
            Setup.FactsOf(Setup.Fluid(Charge.FluidId)),
            standing,
            reading,
            Limits.Limits,
            [.. Steps.Select(s => Setup.FactsOf(s, Sump.Id))],
            Calendar,
            nowUtc)
        {
            History = history,
            Tunings = Tunings.ByRule,
        };

    /// <summary>The answer in full: what was judged, and what was made of it under which ids.</summary>
    public static ReadingOutcome Outcome(Guid readingId, IReadOnlyList<WorkedMeasurement> worked, Evaluation evaluation, StandingFacts standing, Func<Guid> newId)
    {
        var open = standing.OpenTasks.ToDictionary(t => t.Id);
        var flags = standing.OpenFlags.ToDictionary(f => f.Id);
        return new(
            readingId,
            evaluation.Verdict,
            [.. worked.Select((w, i) => Measured(w, evaluation.Measurements[i], standing))],
            [.. evaluation.Raised.Select(f => new FlagOutcome(newId(), f.Rule, f.Parameter, f.Severity, f.Direction, f.Numbers))],
            [.. evaluation.Cleared.Select(id => flags[id]).Select(f => new FlagOutcome(f.Id, f.Rule, f.Parameter, f.Severity, f.Direction, f.Numbers))],
            evaluation.Recipe,
            [.. evaluation.NewTasks.Select(t => new TaskOutcome(newId(), t.Kind, t.Cause, t.DueAt))],
            [.. evaluation.DoneTasks.Select(id => open[id]).Select(t => new TaskOutcome(t.Id, t.Kind, t.Cause, t.DueAt))],
            [.. evaluation.WithdrawnTasks.Select(id => open[id]).Select(t => new TaskOutcome(t.Id, t.Kind, t.Cause, t.DueAt))],
            evaluation.Cautions,
            evaluation.NextTestDueAt);
    }

    private static MeasurementOutcome Measured(WorkedMeasurement worked, JudgedMeasurement judged, StandingFacts standing)
    {
        var previous = standing.Latest.TryGetValue(worked.Parameter.Code, out var latest) ? latest.Value : (decimal?)null;
        return new(
            worked.Parameter.Code,
            worked.Method,
            worked.RawValue,
            worked.RawUnit,
            worked.Value,
            worked.Parameter.Unit,
            worked.Uncertainty,
            judged.Verdict,
            judged.Direction,
            judged.Limit,
            judged.Basis,
            IsUnlikely(worked, previous),
            previous);
    }

    private static bool IsUnlikely(WorkedMeasurement worked, decimal? previous) =>
        worked.Value < worked.Parameter.UsualLow
        || worked.Value > worked.Parameter.UsualHigh
        || (previous is { } last && Math.Abs(worked.Value - last) > worked.Parameter.UnlikelyStep);
}
