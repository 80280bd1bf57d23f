using ShopFluids.Core.Care;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Record;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Readings;

/// <summary>Rows that a judged reading changes.</summary>
/// <param name="Cleared">The flags that it ends.</param>
/// <param name="Ended">The tasks that it does or withdraws.</param>
/// <param name="Adjustments">Adjustments that stay open: they follow the latest recipe.</param>
internal sealed record TouchedRows(IReadOnlyList<Flag> Cleared, IReadOnlyList<CareTask> Ended, IReadOnlyList<CareTask> Adjustments);

/// <summary>The rows that a judged reading makes, and what is open after it.</summary>
internal sealed record ReadingConsequences(IReadOnlyList<Flag> Raised, IReadOnlyList<CareTask> Made, IReadOnlyList<OpenFlag> OpenFlags, IReadOnlyList<OpenTask> OpenTasks)
{
    /// <summary>The reading itself, with its measurements and its outcome.</summary>
    public static Reading MakeReading(RecordReading command, Actor actor, ReadingJudge judge, DateTime now, IReadOnlyList<WorkedMeasurement> worked, Evaluation evaluation, ReadingOutcome outcome)
    {
        var reading = new Reading(command.Id, judge.Sump.Id, judge.Charge.Id, command.TakenAtUtc, now, actor.PersonId ?? Guid.Empty, command.Note, ReadingFingerprint.Of(command));
        for (var i = 0; i < worked.Count; i++)
        {
            reading.Add(new Measurement(reading.Id, worked[i], evaluation.Measurements[i].Verdict, evaluation.Measurements[i].Direction, judge.Limits.SetOf(worked[i].Parameter.Code)?.Id));
        }

        if (command.SupersedesId is { } superseded)
        {
            reading.Supersede(superseded, command.CorrectionReason ?? "");
        }

        reading.Judge(outcome);
        return reading;
    }

    /// <summary>Makes and ends the flags and tasks of a reading.</summary>
    public static ReadingConsequences Of(
        Reading reading, ReadingOutcome outcome, Evaluation evaluation, StandingFacts facts, ReadingJudge judge, TouchedRows touched, Actor actor, DateTime now)
    {
        foreach (var flag in touched.Cleared)
        {
            flag.End(reading.SupersedesId is { } superseded && flag.ReadingId == superseded ? FlagEnd.Superseded : FlagEnd.Cleared, now, reading.Id);
        }

        var done = outcome.Done.Select(t => t.Id).ToHashSet();
        foreach (var task in touched.Ended)
        {
            task.End(done.Contains(task.Id) ? TaskState.Done : TaskState.Withdrawn, now, done.Contains(task.Id) ? actor.PersonId : null, reading.Id);
        }

        if (evaluation.Recipe is { } recipe)
        {
            foreach (var task in touched.Adjustments)
            {
                task.Renew(recipe);
            }
        }

        var raised = outcome.Raised.Select((f, i) => Raise(f, evaluation.Raised[i], reading, judge, now)).ToList();
        var made = outcome.Made.Select((t, i) => Make(t.Id, evaluation.NewTasks[i], evaluation, reading, now)).ToList();
        var (cleared, ended) = (outcome.Cleared.Select(f => f.Id).ToHashSet(), outcome.Done.Concat(outcome.Withdrawn).Select(t => t.Id).ToHashSet());
        return new(
            raised,
            made,
            [.. facts.OpenFlags.Where(f => !cleared.Contains(f.Id)), .. raised.Select(f => f.ToOpen())],
            [.. facts.OpenTasks.Where(t => !ended.Contains(t.Id)), .. made.Select(t => t.ToOpen())]);
    }

    private static Flag Raise(FlagOutcome told, RaisedFlag raised, Reading reading, ReadingJudge judge, DateTime now) =>
        new(told.Id, reading.SumpId, reading.ChargeId, raised, reading.Id, now, judge.Limits.SetOf(told.Parameter)?.Id, judge.Tunings.NumbersOf(told.Rule));

    private static CareTask Make(Guid id, ProposedTask proposed, Evaluation evaluation, Reading reading, DateTime now)
    {
        var task = new CareTask(id, reading.SumpId, proposed.Kind, proposed.Cause, proposed.StepId, proposed.DueAt, now, reading.Id, proposed.FromRecipe ? evaluation.Recipe : null);
        if (proposed.Why is { } why)
        {
            task.PlannedBecause(why);
        }

        return task;
    }
}
