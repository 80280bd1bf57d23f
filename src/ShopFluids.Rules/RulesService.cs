using ShopFluids.Rules.Advice;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Idle;
using ShopFluids.Rules.Judging;
using ShopFluids.Rules.OverdueTest;
using ShopFluids.Rules.Registry;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Rules.UnreadSlide;

namespace ShopFluids.Rules;

/// <summary>Everything that one evaluation may look at. Nothing else is read: no clock, no database, no setting.</summary>
/// <param name="Now">The moment of judging, UTC.</param>
public sealed record EvaluationInput(
    SumpFacts Sump,
    FluidFacts Fluid,
    StandingFacts Standing,
    ReadingFacts Reading,
    IReadOnlyList<ParameterLimits> Limits,
    IReadOnlyList<CareStepFacts> Plan,
    ShopCalendar Calendar,
    DateTime Now)
{
    /// <summary>The charge so far, for rules that look back.</summary>
    public ChargeHistory History { get; init; } = ChargeHistory.Empty;

    /// <summary>The rules that are set for this sump, its fluid or the whole shop, by code.</summary>
    public IReadOnlyDictionary<string, RuleTuning> Tunings { get; init; } = NoTunings;

    private static readonly Dictionary<string, RuleTuning> NoTunings = [];

    /// <summary>Whether the reading measures a parameter and no later value of it is known: only then anything follows from it.</summary>
    /// <param name="parameter">The parameter's code.</param>
    public bool IsLatest(string parameter) =>
        Reading.Decisive(parameter) is not null
        && (!Standing.Latest.TryGetValue(parameter, out var latest) || latest.TakenAt <= Reading.TakenAt);
}

/// <summary>
/// The rules, as pure functions: the same facts always give the same findings. Whoever calls loads the
/// facts and stores the answer together with the reading.
/// </summary>
public static class RulesService
{
    /// <summary>Judges a reading and says what follows from it.</summary>
    /// <param name="input">Everything that may be looked at.</param>
    public static Evaluation Evaluate(EvaluationInput input)
    {
        ArgumentNullException.ThrowIfNull(input);
        var judged = input.Reading.Measurements.Select(m => MeasurementJudge.Judge(m, input.Limits, input.Standing.FirstFillPh)).ToList();
        var flags = FlagChanges.Of(input);
        var recipe = RecipeAdvice.Plan(input, flags);
        var work = WorkPlan.Of(input, flags, recipe is not null);
        var openTests = input.Standing.OpenTasks.Where(t => t.Kind == TaskKind.Test && !work.Done.Contains(t) && !work.Withdrawn.Contains(t)).ToList();
        return new(
            judged,
            MeasurementJudge.Worst(judged),
            flags.Raised,
            [.. flags.Cleared.Concat(NoLongerOverdue(input.Standing.OpenFlags, openTests, input.Now)).Select(f => f.Id)],
            recipe,
            work.New,
            [.. work.Done.Select(t => t.Id)],
            [.. work.Withdrawn.Select(t => t.Id)],
            CautionAdvice.For(Current(input), flags.After, work.Corrective, recipe),
            EarliestDue(openTests.Select(t => t.DueAt), work.New));
    }

    /// <summary>
    /// Judges a stored reading again. It completes no test and is no second look: only what limits and settings say otherwise than then begins
    /// or ends, with the work for it.
    /// </summary>
    /// <param name="input">The reading, what is known of the sump now, and the limits and settings in force now.</param>
    /// <param name="closed">Rule and parameter of flags that a supervisor has closed on this very reading: they stay closed.</param>
    public static SecondJudgement JudgeAgain(EvaluationInput input, IReadOnlySet<(string Rule, string Parameter)> closed)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(closed);
        var alone = input with { Plan = [] };
        var flags = FlagChanges.Of(alone).Without(alone, closed);
        var recipe = RecipeAdvice.Plan(alone, flags);
        var work = WorkPlan.Of(alone, flags, recipe is not null);
        var causes = flags.Raised.Select(f => CorrectiveWork.CauseOf(f.Rule, f.Parameter)).ToHashSet(StringComparer.Ordinal);
        return new(
            flags.Raised,
            [.. flags.Cleared.Select(f => f.Id)],
            recipe,
            [.. work.New.Where(t => causes.Contains(t.Cause) || work.Withdrawn.Any(w => w.Kind == t.Kind) || (flags.IsSparedTheDrain && t.Kind == TaskKind.Adjust))],
            [.. work.Withdrawn.Select(t => t.Id)]);
    }

    /// <summary>
    /// The work that a sump needs after all once a supervisor has closed the flag for which it was to be drained: until then nothing was to be put
    /// right. One adjusting, for the worst flag that asks for it; it has no recipe until somebody measures.
    /// </summary>
    /// <param name="closed">The flag.</param>
    /// <param name="left">The flags that are open still.</param>
    /// <param name="open">The sump's open tasks.</param>
    /// <param name="calendar">The sump's days.</param>
    /// <param name="now">The moment of judging, UTC.</param>
    /// <returns>Null where nothing is to be done.</returns>
    public static ProposedTask? WorkOfASparedSump(OpenFlag closed, IReadOnlyList<OpenFlag> left, IReadOnlyList<OpenTask> open, ShopCalendar calendar, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(closed);
        ArgumentNullException.ThrowIfNull(left);
        ArgumentNullException.ThrowIfNull(open);
        ArgumentNullException.ThrowIfNull(calendar);
        return !CorrectiveWork.IsPastMending(closed) || left.Any(CorrectiveWork.IsPastMending) || open.Any(t => t.Kind == TaskKind.Adjust) ? null
            : left.OrderByDescending(f => f.Severity)
                .Where(f => CorrectiveWork.For(f.Rule, f.Parameter, f.Direction, f.Severity, isConfirmed: true).Contains(TaskKind.Adjust))
                .Select(f => new ProposedTask(TaskKind.Adjust, CorrectiveWork.CauseOf(f.Rule, f.Parameter), null, CorrectiveDue.For(f.Severity, now, calendar), FromRecipe: false))
                .FirstOrDefault();
    }

    /// <summary>What the passing of time alone raises; for a timer. Raises nothing that is open already.</summary>
    /// <param name="standing">What is known of the sump.</param>
    /// <param name="calendar">The shop's days.</param>
    /// <param name="tunings">How the rules are set for the sump.</param>
    /// <param name="now">The moment of judging, UTC.</param>
    public static IReadOnlyList<RaisedFlag> EvaluateClock(StandingFacts standing, ShopCalendar calendar, IReadOnlyDictionary<string, RuleTuning> tunings, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(standing);
        ArgumentNullException.ThrowIfNull(calendar);
        ArgumentNullException.ThrowIfNull(tunings);
        var raised = standing.OpenTasks
            .OrderBy(t => t.DueAt)
            .ThenBy(t => t.Cause, StringComparer.Ordinal)
            .Select(t => OverdueTestRule.Check(t, standing, calendar, now))
            .FirstOrDefault(f => f is not null);
        return [.. new[] { raised, RuleRegistry.Idle.CheckClock(standing, calendar, tunings, now), RuleRegistry.UnreadSlide.CheckClock(standing, tunings, now) }.OfType<RaisedFlag>()];
    }

    /// <summary>Since when what a flag of the clock tells has been so; where several things are late, since the latest of them is.</summary>
    /// <param name="rule">The rule of a flag that <see cref="EvaluateClock"/> raised.</param>
    /// <param name="standing">The standing that it was raised of.</param>
    /// <param name="now">The moment of judging, UTC.</param>
    /// <exception cref="ArgumentOutOfRangeException">The clock raises no flag of the rule.</exception>
    public static DateTime ClockBeganAt(string rule, StandingFacts standing, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(standing);
        return rule switch
        {
            OverdueTestRule.Code => standing.OpenTasks.Where(t => OverdueTestRule.IsLate(t, now)).Max(t => t.DueAt),
            UnreadSlideRule.RuleCode => standing.OpenTasks.Where(t => UnreadSlideRule.IsLate(t, now)).Max(t => t.DueAt),
            IdleRule.RuleCode => IdleRule.LastSignOfLife(standing),
            _ => throw new ArgumentOutOfRangeException(nameof(rule), rule, "Not a rule of the clock."),
        };
    }

    /// <summary>The work that flags of the clock ask for; nothing that is open already. A late test is its own work.</summary>
    /// <param name="raised">The flags.</param>
    /// <param name="open">The sump's open tasks.</param>
    /// <param name="calendar">The sump's days.</param>
    /// <param name="now">The moment of judging, UTC.</param>
    public static IReadOnlyList<ProposedTask> WorkOfClock(IReadOnlyList<RaisedFlag> raised, IReadOnlyList<OpenTask> open, ShopCalendar calendar, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(raised);
        ArgumentNullException.ThrowIfNull(open);
        ArgumentNullException.ThrowIfNull(calendar);
        return [.. raised.Where(f => f.Rule != OverdueTestRule.Code)
            .SelectMany(f => CorrectiveWork.For(f.Rule, f.Parameter, f.Direction, f.Severity, isConfirmed: false)
                .Select(k => new ProposedTask(k, CorrectiveWork.CauseOf(f.Rule, f.Parameter), null, CorrectiveDue.For(f.Severity, now, calendar), FromRecipe: false)))
            .Where(p => !open.Any(t => t.Kind == p.Kind && t.Cause == p.Cause))];
    }

    /// <summary>The flags for late tests that end because no test is late any more: measured, skipped, withdrawn or no longer planned.</summary>
    /// <param name="flags">The sump's open flags.</param>
    /// <param name="tasks">Its open tasks.</param>
    /// <param name="now">The moment of judging, UTC.</param>
    public static IReadOnlyList<OpenFlag> NoLongerOverdue(IReadOnlyList<OpenFlag> flags, IReadOnlyList<OpenTask> tasks, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(flags);
        ArgumentNullException.ThrowIfNull(tasks);
        return tasks.Any(t => OverdueTestRule.IsLate(t, now)) ? [] : [.. flags.Where(f => f.Rule == OverdueTestRule.Code)];
    }

    // A smell of yesterday that is entered after today's calls for no caution any more.
    private static ReadingFacts Current(EvaluationInput input) =>
        input.Reading with { Measurements = [.. input.Reading.Measurements.Where(m => input.IsLatest(m.Parameter))] };

    private static DateTime? EarliestDue(IEnumerable<DateTime> open, IReadOnlyList<ProposedTask> proposed) =>
        open.Concat(proposed.Where(t => t.Kind == TaskKind.Test).Select(t => t.DueAt)).Select(d => (DateTime?)d).Min();
}
