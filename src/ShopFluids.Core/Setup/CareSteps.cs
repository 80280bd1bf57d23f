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

namespace ShopFluids.Core.Setup;

/// <summary>Adds a recurring step to a sump's care plan; its first task is made at once.</summary>
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
    int EstimatedMinutes);

public sealed class AddCareStepHandler(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    /// <summary>The longest interval, and how far from today its first day may lie: ten years. Common practice, no source.</summary>
    private const int MaximumDays = 3660;

    /// <summary>Whether work can recur by the calendar. An adjustment follows from a reading, never from the calendar.</summary>
    public static bool IsOfACalendar(TaskKind kind) => Enum.IsDefined(kind) && kind != TaskKind.Adjust;

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

        var errors = Check(command, setup, setup.Calendar.ShopDayOf(clock.UtcNow));
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

        db.Add(new CareStep(command.Id, plan.Id, command.Kind, command.Basis, command.IntervalDays, command.Anchor, command.ClosedDays, command.Parameters, command.EstimatedMinutes));
        await write.FlushAsync(cancellationToken);
        if (setup.OpenCharge(sump.Id) is not null)
        {
            await new CarePlanner(db, setup, clock).PlanMissingAsync(sump.Id, cancellationToken);
        }

        await StandingKeeper.RefreshAsync(write, sump, cancellationToken);
        await write.CommitAsync(new Act(ActCodes.SetupChanged, actor, clock.UtcNow, sump.Tag), cancellationToken);
        return new Saved(command.Id);
    }

    private static List<FieldError> Check(AddCareStep command, ShopSetup setup, DateOnly today)
    {
        var errors = new List<FieldError>();
        SetupFields.Range(errors, "intervalDays", command.IntervalDays, 1, MaximumDays, "d");
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
