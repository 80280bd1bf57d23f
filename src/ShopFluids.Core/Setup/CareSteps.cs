using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Setup;

/// <summary>Adds a recurring step to a sump's care plan; its first task is made at once.</summary>
/// <param name="IntervalDays">Of an interval that follows what was found, the first; of an event the days after it; 0 with months or running hours.</param>
/// <param name="Parameters">For a test: what has to be measured; otherwise empty.</param>
public sealed record AddCareStep(
    Guid Id,
    string SumpTag,
    TaskKind Kind,
    IntervalBasis Basis,
    int IntervalDays,
    DateOnly Anchor,
    ClosedDayPolicy ClosedDays,
    IReadOnlyList<string> Parameters,
    int EstimatedMinutes)
{
    /// <summary>By the calendar or from last done, in place of days; 0 for none.</summary>
    public int IntervalMonths { get; init; }

    /// <summary>With the basis of running hours.</summary>
    public int IntervalHours { get; init; }

    /// <summary>With the basis of what was found: the shortest interval, the longest, and what one likes to find each time.</summary>
    public int FloorDays { get; init; }

    public int CeilingDays { get; init; }

    public decimal WantedFind { get; init; }

    /// <summary>After a flag: of which parameter; empty for any.</summary>
    public string EventParameter { get; init; } = "";
}

public sealed class AddCareStepHandler(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    /// <summary>The longest interval, and how far from today its first day may lie: ten years. Common practice, no source.</summary>
    private const int MaximumDays = RunningHours.MaximumDays;

    /// <summary>Whether work can recur by the calendar. An adjustment follows from a reading, never from the calendar.</summary>
    public static bool IsOfACalendar(TaskKind kind) => Enum.IsDefined(kind) && kind is not (TaskKind.Adjust or TaskKind.ReadSlide);

    public async Task<Result<Saved>> HandleAsync(AddCareStep command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        var setup = await setups.ForAsync(write, cancellationToken);
        if (setup.FindSump(command.SumpTag) is not { } sump)
        {
            return new SumpNotFound(command.SumpTag);
        }

        if (await db.CareSteps.AnyAsync(s => s.Id == command.Id, cancellationToken))
        {
            return new Saved(command.Id);
        }

        var errors = Check(command, setup, sump, setup.Calendar.ShopDayOf(clock.UtcNow));
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        var plan = await db.CarePlans.FirstOrDefaultAsync(p => p.SumpId == sump.Id, cancellationToken);
        if (plan is null)
        {
            plan = new CarePlan(clock.NewId(), sump.Id);
            db.Add(plan);
        }

        db.Add(Made(command, plan.Id));
        await write.FlushAsync(cancellationToken);
        if (setup.OpenCharge(sump.Id) is not null)
        {
            await new CarePlanner(db, setup, clock).PlanMissingAsync(sump.Id, cancellationToken);
        }

        await StandingKeeper.RefreshAsync(write, sump, cancellationToken);
        await write.CommitAsync(new Act(ActCodes.SetupChanged, actor, clock.UtcNow, sump.Tag), cancellationToken);
        return new Saved(command.Id);
    }

    private static CareStep Made(AddCareStep command, Guid planId)
    {
        var isInDays = command is { IntervalMonths: 0, Basis: not IntervalBasis.RunningHours };
        var step = new CareStep(command.Id, planId, command.Kind, command.Basis, isInDays ? command.IntervalDays : 0, command.Anchor, command.ClosedDays, command.Parameters, command.EstimatedMinutes);
        if (command.IntervalMonths > 0)
        {
            step.CountMonths(command.IntervalMonths);
        }

        switch (command.Basis)
        {
            case IntervalBasis.Condition:
                step.FollowFinds(new(command.FloorDays, command.CeilingDays, command.WantedFind));
                break;
            case IntervalBasis.RunningHours:
                step.CountRunningHours(command.IntervalHours);
                break;
            case IntervalBasis.AfterFlag:
                step.FollowFlagsOf(command.EventParameter.Length == 0 ? null : command.EventParameter);
                break;
        }

        return step;
    }

    private static List<FieldError> Check(AddCareStep command, ShopSetup setup, Sump sump, DateOnly today)
    {
        var errors = new List<FieldError>();
        CareIntervals.Check(errors, command, setup, sump);
        SetupFields.Range(errors, "estimatedMinutes", command.EstimatedMinutes, 0, 10_000, "min");
        if (!IsOfACalendar(command.Kind))
        {
            errors.Add(new("kind", FieldProblem.UnknownChoice));
        }

        if (!Enum.IsDefined(command.Basis))
        {
            errors.Add(new("basis", FieldProblem.UnknownChoice));
        }

        if (!Enum.IsDefined(command.ClosedDays))
        {
            errors.Add(new("closedDays", FieldProblem.UnknownChoice));
        }

        var (first, last) = (today.AddDays(-MaximumDays), today.AddDays(MaximumDays));
        if (command.Anchor < first || command.Anchor > last)
        {
            errors.Add(new("anchor", FieldProblem.DayOutOfRange, FirstDay: first, LastDay: last));
        }

        if (command.Kind == TaskKind.Test && command.Parameters.Count == 0)
        {
            errors.Add(new("parameters", FieldProblem.Missing));
        }

        errors.AddRange(command.Parameters.Where(p => setup.FindParameter(p) is null).Select(p => new FieldError("parameters", FieldProblem.UnknownParameter, Detail: p)));
        return errors;
    }
}

/// <summary>Stops a step: its open task is withdrawn and no other is made.</summary>
public sealed record StopCareStep(Guid StepId);

public sealed record StepNotFound(Guid StepId) : Error;

public sealed class StopCareStepHandler(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    public async Task<Result<Saved>> HandleAsync(StopCareStep command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        await using var write = await database.WriteAsync(cancellationToken);
        var db = write.Database;
        var setup = await setups.ForAsync(write, cancellationToken);
        var step = await db.CareSteps.FirstOrDefaultAsync(s => s.Id == command.StepId, cancellationToken);
        var plan = step is null ? null : await db.CarePlans.FirstAsync(p => p.Id == step.CarePlanId, cancellationToken);
        if (step is null || plan is null || setup.FindSump(plan.SumpId) is not { } sump)
        {
            return new StepNotFound(command.StepId);
        }

        step.Stop();
        foreach (var task in await db.CareTasks.Where(t => t.StepId == step.Id && t.State == TaskState.Open).ToListAsync(cancellationToken))
        {
            task.End(TaskState.Withdrawn, clock.UtcNow, actor.PersonId);
        }

        await LateTestFlag.EndWhenNoneIsLateAsync(write, sump.Id, clock.UtcNow, actor.PersonId, cancellationToken);
        await StandingKeeper.RefreshAsync(write, sump, cancellationToken);
        await write.CommitAsync(new Act(ActCodes.SetupChanged, actor, clock.UtcNow, sump.Tag), cancellationToken);
        return new Saved(step.Id);
    }
}
