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

    /// <summary>With the basis of risk, beside floor and ceiling: the probability of being out of limits that is accepted, %.</summary>
    public decimal AcceptedRiskPercent { get; init; }

    /// <summary>After a flag: of which parameter; empty for any.</summary>
    public string EventParameter { get; init; } = "";

    /// <summary>The shift, 1 for the day's first, at whose end it is due; 0 for the end of the shop day.</summary>
    public int Shift { get; init; }

    /// <summary>What is needed to do it.</summary>
    public StepNeeds Needs { get; init; } = StepNeeds.None;
}

public sealed class AddCareStepHandler(ShopDatabase database, SetupCache setups, ShopClock clock)
{
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

        var errors = CareStepMaker.Check(command, setup, sump, setup.Calendar.ShopDayOf(clock.UtcNow));
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        await CareStepMaker.AddAsync(write, setup, clock, sump, [CareStepMaker.Made(command)], cancellationToken);
        await write.CommitAsync(new Act(ActCodes.SetupChanged, actor, clock.UtcNow, sump.Tag), cancellationToken);
        return new Saved(command.Id);
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
