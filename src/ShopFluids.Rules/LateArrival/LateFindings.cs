using ShopFluids.Rules.Advice;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.FirstFillDrop;
using ShopFluids.Rules.Judging;
using ShopFluids.Rules.Limit;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.LateArrival;

/// <summary>
/// What follows from a reading that arrives after later ones, or corrects one. A flag holds until it is cleared by a margin, and some rules look back: the flags
/// therefore depend on the order in which readings are judged. So the charge is judged twice in memory, in the order of time, without the late
/// reading and with it, in place of the one that it supersedes; what differs at the end is what its arrival changes. What people ended in the meantime stays ended, for it is in
/// neither or in both. No answer given earlier is altered.
/// </summary>
public static class LateFindings
{
    /// <summary>The evaluation of the late reading, with the changes that its place in time makes.</summary>
    /// <param name="late">The case.</param>
    /// <param name="alone">The reading judged by itself: its verdicts stand.</param>
    public static Evaluation Settle(LateCase late, Evaluation alone)
    {
        ArgumentNullException.ThrowIfNull(late);
        ArgumentNullException.ThrowIfNull(alone);
        var standing = late.Late.Standing;
        var (without, with) = (ChargeReplay.Run(late, late.Known), ChargeReplay.Run(late, late.With));
        var (raised, cleared) = Flags(late, without, with);
        var (made, done, withdrawn) = Tasks(late, raised, cleared, without, with);
        var recipe = alone.Recipe ?? (made.Exists(t => t.FromRecipe) ? with.Recipe : null);
        made = made.ConvertAll(t => t with { FromRecipe = t.FromRecipe && recipe is not null });

        var tests = standing.OpenTasks.Where(t => t.Kind == TaskKind.Test && !done.Contains(t) && !withdrawn.Contains(t)).ToList();
        var kinds = made.Where(t => !CareSchedule.IsPlanned(t.Cause)).Select(t => t.Kind).ToHashSet();
        var nothing = late.Late.Reading with { Measurements = [] };
        return alone with
        {
            Raised = raised,
            Cleared = [.. cleared.Concat(RulesService.NoLongerOverdue(standing.OpenFlags, tests, late.Late.Now)).Select(f => f.Id)],
            Recipe = recipe,
            NewTasks = made,
            DoneTasks = [.. done.Select(t => t.Id)],
            WithdrawnTasks = [.. withdrawn.Select(t => t.Id)],
            Cautions = [.. alone.Cautions.Union(CautionAdvice.For(nothing, [.. raised.Select(StateOf)], kinds, recipe))],
            NextTestDueAt = tests.Select(t => t.DueAt).Concat(made.Where(t => t.Kind == TaskKind.Test).Select(t => t.DueAt)).Select(d => (DateTime?)d).Min(),
        };
    }

    private static (List<RaisedFlag> Raised, List<OpenFlag> Cleared) Flags(LateCase late, ChargeReplay without, ChargeReplay with)
    {
        var standing = late.Late.Standing;
        var led = standing.OpenFlags.Where(f => late.Led.Contains(f.Id)).ToDictionary(f => (f.Rule, f.Parameter));
        var (raised, cleared) = (new List<RaisedFlag>(), new List<OpenFlag>());
        var (before, after) = (without.Flags.ToDictionary(KeyOf), with.Flags.ToDictionary(KeyOf));
        foreach (var key in before.Keys.Union(after.Keys).Union(led.Keys).OrderBy(k => k.Rule, StringComparer.Ordinal).ThenBy(k => k.Parameter, StringComparer.Ordinal))
        {
            var (was, becomes) = (before.GetValueOrDefault(key), after.GetValueOrDefault(key));

            // What the superseded reading raised tells a wrong number, unless the right one is the same.
            var isOfTheWrong = led.TryGetValue(key, out var wrong) && !(becomes is not null && IsSame(wrong, becomes) && IsSame(wrong.Numbers, becomes.Numbers));
            if (was is not null && becomes is not null && IsSame(was, becomes) && !isOfTheWrong)
            {
                continue;
            }

            var open = standing.OpenFlag(key.Rule, key.Parameter);
            if (becomes is not null && open is null && IsClosed(becomes, late.Closed, with))
            {
                continue;
            }

            // What a person closed is raised again only for something worse.
            if (becomes is not null && (open is not null || was is null || becomes.Severity > was.Severity) && (isOfTheWrong || !(open is not null && IsSame(open, becomes))))
            {
                raised.Add(becomes);
            }
            else if (becomes is not null)
            {
                continue;
            }

            if (open is not null)
            {
                cleared.Add(open);
            }
        }

        return (raised, cleared);
    }

    private static (List<ProposedTask> Made, List<OpenTask> Done, List<OpenTask> Withdrawn) Tasks(
        LateCase late, List<RaisedFlag> raised, List<OpenFlag> cleared, ChargeReplay without, ChargeReplay with)
    {
        var standing = late.Late.Standing;
        var (made, done, withdrawn) = (new List<ProposedTask>(), new List<OpenTask>(), new List<OpenTask>());
        var (before, after) = (without.Tasks.ToDictionary(KeyOf), with.Tasks.ToDictionary(KeyOf));
        var open = standing.OpenTasks.ToDictionary(KeyOf);
        foreach (var (key, was) in before.OrderBy(t => t.Value.DueAt).ThenBy(t => t.Key.Kind).ThenBy(t => t.Key.Cause, StringComparer.Ordinal))
        {
            if (!open.TryGetValue(key, out var task))
            {
                continue;
            }

            if (!after.TryGetValue(key, out var becomes))
            {
                (with.IsCompleted(key.Kind, key.Cause) ? done : withdrawn).Add(task);
            }
            else if (CareSchedule.IsPlanned(key.Cause) && becomes.DueAt > was.DueAt && task.DueAt == was.DueAt && with.Made(key.Kind, key.Cause) is { } next)
            {
                // The later visits count for the items after this one.
                done.Add(task);
                made.Add(next);
            }
        }

        // Work whose flag ends goes with it, also where a person had changed what there was to do.
        var stays = raised.Select(f => CorrectiveWork.CauseOf(f.Rule, f.Parameter)).ToHashSet(StringComparer.Ordinal);
        var ends = cleared.Select(f => CorrectiveWork.CauseOf(f.Rule, f.Parameter)).Where(c => !stays.Contains(c)).ToHashSet(StringComparer.Ordinal);
        withdrawn.AddRange(standing.OpenTasks.Where(t => ends.Contains(t.Cause) && !done.Contains(t) && !withdrawn.Contains(t)));

        // Work that the superseded reading asked for, with its recipe and its hour, gives way to that of the right one.
        var again = cleared.Select(f => CorrectiveWork.CauseOf(f.Rule, f.Parameter)).Where(stays.Contains).ToHashSet(StringComparer.Ordinal);
        withdrawn.AddRange(standing.OpenTasks.Where(t => late.Led.Contains(t.Id) && again.Contains(t.Cause) && with.Made(t.Kind, t.Cause) is not null && !done.Contains(t) && !withdrawn.Contains(t)));

        // Of a flag that a person closed nothing is asked any more.
        var left = standing.OpenTasks.Except(done).Except(withdrawn).ToList();
        var flagged = standing.OpenFlags.Except(cleared).Select(f => CorrectiveWork.CauseOf(f.Rule, f.Parameter)).Concat(stays).ToHashSet(StringComparer.Ordinal);
        foreach (var (key, _) in after.Where(t => !before.ContainsKey(t.Key) || withdrawn.Exists(w => KeyOf(w) == t.Key)).OrderBy(t => t.Value.DueAt).ThenBy(t => t.Key.Kind).ThenBy(t => t.Key.Cause, StringComparer.Ordinal))
        {
            var isThere = left.Exists(t => KeyOf(t) == key
                || (t.Kind == key.Kind && CorrectiveWork.OneIsEnough(key.Kind) && !CareSchedule.IsPlanned(t.Cause) && !CareSchedule.IsPlanned(key.Cause)));
            if (!isThere && (CareSchedule.IsPlanned(key.Cause) || flagged.Contains(key.Cause)) && with.Made(key.Kind, key.Cause) is { } task)
            {
                made.Add(task);
            }
        }

        return (made, done, withdrawn);
    }

    // A supervisor had the last word on it: nobody has looked since.
    private static bool IsClosed(RaisedFlag flag, IReadOnlyList<ClosedByHand> closed, ChargeReplay with) =>
        closed.Any(c => c.Rule == flag.Rule && c.Parameter == flag.Parameter && c.Severity >= flag.Severity && c.At >= with.LastLookAt(flag.Parameter));

    // The numbers of a limit's flag say what was found when it was raised, and nothing depends on them; other rules reckon with theirs.
    private static bool IsSame(RaisedFlag one, RaisedFlag other) =>
        one.Severity == other.Severity && one.Direction == other.Direction && (IsLimit(one.Rule) || IsSame(one.Numbers, other.Numbers));

    private static bool IsSame(OpenFlag open, RaisedFlag raised) =>
        open.Severity == raised.Severity && open.Direction == raised.Direction && (IsLimit(open.Rule) || IsSame(open.Numbers, raised.Numbers));

    private static bool IsSame(IReadOnlyDictionary<string, decimal> one, IReadOnlyDictionary<string, decimal> other) =>
        one.Count == other.Count && one.All(n => other.TryGetValue(n.Key, out var number) && number == n.Value);

    private static bool IsLimit(string rule) => rule is LimitRule.Code or FirstFillDropRule.Code;

    private static (string Rule, string Parameter) KeyOf(RaisedFlag flag) => (flag.Rule, flag.Parameter);

    private static (TaskKind Kind, string Cause) KeyOf(OpenTask task) => (task.Kind, task.Cause);

    private static FlagState StateOf(RaisedFlag flag) => new(flag.Rule, flag.Parameter, flag.Severity, flag.Direction, IsNew: true, IsBeyond: true);
}
