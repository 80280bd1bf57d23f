using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Judging;
using ShopFluids.Rules.OverdueTest;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Rules.Shutdowns;

namespace ShopFluids.Rules.Advice;

/// <summary>What a reading does to the tasks of its sump.</summary>
/// <param name="New">Work to make; never of a kind and cause of which a task stays open.</param>
/// <param name="Done">Tests that the reading completes.</param>
/// <param name="Withdrawn">Corrective work whose flag ended, unless the flag that replaces it asks for the same.</param>
/// <param name="Corrective">Kinds of corrective work that the flags ask for, new or open already.</param>
public sealed record WorkPlan(
    IReadOnlyList<ProposedTask> New,
    IReadOnlyList<OpenTask> Done,
    IReadOnlyList<OpenTask> Withdrawn,
    IReadOnlySet<TaskKind> Corrective)
{
    /// <summary>Works out the changes.</summary>
    /// <param name="input">What the evaluation may look at.</param>
    /// <param name="flags">What the reading did to the flags.</param>
    /// <param name="hasRecipe">Whether the evaluation carries a recipe.</param>
    public static WorkPlan Of(EvaluationInput input, FlagChanges flags, bool hasRecipe)
    {
        var plan = input.Plan.Select(s => (Step: s, Cause: CareSchedule.CauseOf(s.Id))).ToList();
        var done = input.Standing.OpenTasks.Where(t => t.Kind == TaskKind.Test && Completes(t, plan, flags, input)).ToList();
        var asked = flags.After.ToDictionary(f => CorrectiveWork.CauseOf(f.Rule, f.Parameter), KindsFor, StringComparer.Ordinal);
        var ended = flags.Cleared.Select(f => CorrectiveWork.CauseOf(f.Rule, f.Parameter)).ToHashSet(StringComparer.Ordinal);
        var withdrawn = input.Standing.OpenTasks
            .Where(t => (flags.MustDrain && CorrectiveWork.IsVainBeforeADraining(t.Kind, t.Cause)) || (ended.Contains(t.Cause) && !done.Contains(t) && !(asked.TryGetValue(t.Cause, out var kinds) && kinds.Contains(t.Kind))))
            .ToList();
        var open = input.Standing.OpenTasks.Where(t => !done.Contains(t) && !withdrawn.Contains(t)).ToList();
        return new(
            [.. Corrections(input, flags, open, withdrawn, hasRecipe), .. Care(input, plan, done, open), .. AfterFlags(input, plan, flags, open)],
            done,
            withdrawn,
            asked.SelectMany(a => a.Value.Where(k => !(flags.MustDrain && CorrectiveWork.IsVainBeforeADraining(k, a.Key)))).ToHashSet());
    }

    private static IReadOnlyList<TaskKind> KindsFor(FlagState flag) =>
        CorrectiveWork.For(flag.Rule, flag.Parameter, flag.Direction, flag.Severity, isConfirmed: !flag.IsNew);

    // A test of the plan needs all its parameters, on one shop day; one of a shutdown concentration and pH; a second test that a flag asked
    // for needs the flag's parameter.
    private static bool Completes(OpenTask test, List<(CareStepFacts Step, string Cause)> plan, FlagChanges flags, EvaluationInput input) =>
        plan.Find(s => s.Cause == test.Cause).Step is { } step
            ? Measures(input, step) && CareSchedule.CountsFor(step, test, input.Reading.TakenAt, input.Calendar)
            : ShutdownWork.IsCompletedBy(test, input) || flags.Cleared.Select(f => (f.Rule, f.Parameter))
                .Concat(flags.After.Where(f => !f.IsNew).Select(f => (f.Rule, f.Parameter)))
                .Any(f => CorrectiveWork.CauseOf(f.Rule, f.Parameter) == test.Cause);

    // What was left out is brought by a second visit of the day: it need not measure again what the first one has measured. A reading that
    // arrives late completes a test only when it brings something that is not known from later.
    private static bool Measures(EvaluationInput input, CareStepFacts step)
    {
        var day = input.Calendar.ShopDayOf(input.Reading.TakenAt);
        bool IsNow(string parameter) => input.Reading.Measurements.Any(m => m.Parameter == parameter);
        bool IsOfTheDay(string parameter) => input.Standing.Latest.TryGetValue(parameter, out var latest) && input.Calendar.ShopDayOf(latest.TakenAt) == day;
        return step.Parameters.Any(input.IsLatest) && step.Parameters.All(p => IsNow(p) || IsOfTheDay(p));
    }

    // Work for a flag that is still beyond is asked for again when none is open: the first try was not enough. Work on the whole sump is
    // asked for once, for the worst flag: one recipe sets level and concentration together, one draining answers every finding.
    private static List<ProposedTask> Corrections(EvaluationInput input, FlagChanges flags, List<OpenTask> open, List<OpenTask> withdrawn, bool hasRecipe)
    {
        var proposed = new List<ProposedTask>();
        var measured = flags.After.Where(f => f.IsBeyond).OrderByDescending(f => f.Severity).SelectMany(f => KindsFor(f).Select(k => (Flag: f, Kind: k)));
        foreach (var (flag, kind) in measured.Concat(HandedOver(input, flags, withdrawn)))
        {
            var cause = CorrectiveWork.CauseOf(flag.Rule, flag.Parameter);
            if (flags.MustDrain && CorrectiveWork.IsVainBeforeADraining(kind, cause))
            {
                continue;
            }

            var isOpen = open.Exists(t => t.Kind == kind && (t.Cause == cause || IsSameLook(t.Cause, cause) || (CorrectiveWork.OneIsEnough(kind) && IsCorrective(t))));
            if (!isOpen && !proposed.Exists(t => t.Kind == kind && (t.Cause == cause || IsSameLook(t.Cause, cause) || CorrectiveWork.IsOnWholeSump(kind))))
            {
                var due = flag.Within is { } within ? CorrectiveDue.Within(within, input.Now, input.Calendar) : CorrectiveDue.For(flag.Severity, input.Now, input.Calendar);
                proposed.Add(new(kind, cause, null, due, FromRecipe: kind == TaskKind.Adjust && hasRecipe));
            }
        }

        return proposed;
    }

    // A flag that this reading does not touch, or that is only short of its margin, may have relied on work that goes with another
    // flag: it takes that work over; or on a draining that nobody asks for any more, and then is put right after all. One whose second look is
    // still open was not confirmed, and relied on nothing yet.
    private static IEnumerable<(FlagState Flag, TaskKind Kind)> HandedOver(EvaluationInput input, FlagChanges flags, List<OpenTask> withdrawn) =>
        input.Standing.OpenFlags
            .Where(f => f.Rule != OverdueTestRule.Code && !flags.Cleared.Contains(f))
            .Select(f => new FlagState(f.Rule, f.Parameter, f.Severity, f.Direction, IsNew: false, IsBeyond: true))
            .SelectMany(f => CorrectiveWork.For(f.Rule, f.Parameter, f.Direction, f.Severity, isConfirmed: !IsLookedAtAgain(f, input.Standing.OpenTasks)).Where(k => CorrectiveWork.IsOnWholeSump(k) && (withdrawn.Exists(t => t.Kind == k) || (k == TaskKind.Adjust && flags.IsSparedTheDrain))).Select(k => (f, k)));

    private static bool IsLookedAtAgain(FlagState flag, IReadOnlyList<OpenTask> open)
    {
        var cause = CorrectiveWork.CauseOf(flag.Rule, flag.Parameter);
        return open.Any(t => t.Kind == TaskKind.Test && (t.Cause == cause || IsSameLook(t.Cause, cause)));
    }

    // Two rules that found something on one parameter ask for one second look, and for one search for the cause.
    private static bool IsSameLook(string cause, string other) =>
        !CareSchedule.IsPlanned(cause) && cause.Split(':', 2) is [_, { Length: > 0 } parameter] && other.EndsWith($":{parameter}", StringComparison.Ordinal);

    private static bool IsCorrective(OpenTask task) => !CareSchedule.IsPlanned(task.Cause);

    private static IEnumerable<ProposedTask> Care(EvaluationInput input, List<(CareStepFacts Step, string Cause)> plan, List<OpenTask> done, List<OpenTask> open)
    {
        // From a reading of which everything is known from later, nothing follows.
        var isOutdated = input.Reading.Measurements.Count > 0 && !input.Reading.Measurements.Any(m => input.IsLatest(m.Parameter));
        foreach (var (step, cause) in isOutdated ? [] : plan.Where(s => s.Step.Recurs))
        {
            if (done.Find(t => t.Cause == cause) is { } test)
            {
                yield return Planned(step, input, s => CareSchedule.After(s, test, input.Reading.TakenAt, input.Calendar));
            }
            else if (!open.Exists(t => t.Kind == step.Kind && t.Cause == cause))
            {
                DateOnly? lastDone = step.Kind == TaskKind.Test && Measures(input, step) ? input.Calendar.ShopDayOf(input.Reading.TakenAt) : null;
                yield return lastDone is null ? CareSchedule.First(step, null, input.Now, input.Calendar)
                    : Planned(step, input, s => CareSchedule.First(s, lastDone, input.Now, input.Calendar));
            }
        }
    }

    private static ProposedTask Planned(CareStepFacts step, EvaluationInput input, Func<CareStepFacts, ProposedTask> plan)
    {
        if (step.Risk is not { } policy)
        {
            return plan(step);
        }

        var why = RiskInterval.After(step, policy, input);
        return plan(step with { IntervalDays = why.Days }) with { Why = why };
    }

    // A flag that gives way to a worse one is another flag; while the step's task is open it serves both.
    private static IEnumerable<ProposedTask> AfterFlags(EvaluationInput input, List<(CareStepFacts Step, string Cause)> plan, FlagChanges flags, List<OpenTask> open) => plan
        .Where(s => s.Step.Basis == IntervalBasis.AfterFlag
            && flags.Raised.Any(f => s.Step.EventParameter.Length == 0 || s.Step.EventParameter == f.Parameter)
            && !open.Exists(t => t.Kind == s.Step.Kind && t.Cause == s.Cause))
        .Select(s => CareSchedule.AfterEvent(s.Step, input.Calendar.ShopDayOf(input.Now), input.Now, input.Calendar));
}
