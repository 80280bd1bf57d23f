using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Setup;

/// <summary>Checks and makes steps of a care plan, whether typed or from a template.</summary>
internal static class CareStepMaker
{
    /// <summary>The longest interval, and how far from today its first day may lie: ten years. Common practice, no source.</summary>
    private const int MaximumDays = RunningHours.MaximumDays;

    /// <summary>A step, its plan not known yet.</summary>
    public static Func<Guid, CareStep> Made(AddCareStep command, string? template = null) => planId =>
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
            case IntervalBasis.Risk:
                step.FollowRisk(new(command.FloorDays, command.CeilingDays, command.AcceptedRiskPercent));
                break;
            case IntervalBasis.RunningHours:
                step.CountRunningHours(command.IntervalHours);
                break;
            case IntervalBasis.AfterFlag:
                step.FollowFlagsOf(command.EventParameter.Length == 0 ? null : command.EventParameter);
                break;
        }

        if (command.Shift > 0)
        {
            step.FallDueWithShift(command.Shift);
        }

        if (Trimmed(command.Needs) is { IsEmpty: false } needs)
        {
            step.Need(needs);
        }

        if (template is not null)
        {
            step.ComeFrom(template);
        }

        return step;
    };

    /// <summary>Adds steps to the sump's plan, which is made where it is missing, and plans their first tasks.</summary>
    public static async Task AddAsync(ShopWrite write, ShopSetup setup, ShopClock clock, Sump sump, IReadOnlyList<Func<Guid, CareStep>> steps, CancellationToken cancellationToken)
    {
        var db = write.Database;
        var plan = await db.CarePlans.FirstOrDefaultAsync(p => p.SumpId == sump.Id, cancellationToken);
        if (plan is null)
        {
            plan = new CarePlan(clock.NewId(), sump.Id);
            db.Add(plan);
        }

        db.AddRange(steps.Select(make => make(plan.Id)));
        await write.FlushAsync(cancellationToken);
        if (setup.OpenCharge(sump.Id) is not null)
        {
            await new CarePlanner(db, setup, clock).PlanMissingAsync(sump.Id, cancellationToken);
        }

        await StandingKeeper.RefreshAsync(write, sump, cancellationToken);
    }

    public static List<FieldError> Check(AddCareStep command, ShopSetup setup, Sump sump, DateOnly today)
    {
        var errors = new List<FieldError>();
        CareIntervals.Check(errors, command, setup, sump);
        SetupFields.Range(errors, "estimatedMinutes", command.EstimatedMinutes, 0, 10_000, "min");
        SetupFields.Range(errors, "shift", command.Shift, 0, setup.Calendar.ShiftEnds.Count);
        CheckNeeds(errors, command);
        if (!AddCareStepHandler.IsOfACalendar(command.Kind))
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

    private static void CheckNeeds(List<FieldError> errors, AddCareStep command)
    {
        var needs = Trimmed(command.Needs);
        TextChecks.Check(errors, "what", needs.What, StepNeeds.MaximumWhatLength, isRequired: false);
        TextChecks.Check(errors, "filter", needs.Filter, StepNeeds.MaximumFilterLength, isRequired: false);
        if (needs.Filter.Length > 0 && command.Kind != TaskKind.ChangeFilter)
        {
            errors.Add(new("filter", FieldProblem.NotAskedHere));
        }

        SetupFields.Range(errors, "steps", needs.Steps.Count, 0, StepNeeds.MaximumSteps);
        if (needs.Steps.FirstOrDefault(s => s.Length > StepNeeds.MaximumStepLength || !TextChecks.IsStorable(s)) is { } wrong)
        {
            TextChecks.Check(errors, "steps", wrong, StepNeeds.MaximumStepLength, isRequired: false);
        }
    }

    private static StepNeeds Trimmed(StepNeeds needs) => new(needs.What.Trim(), needs.Filter.Trim(), [.. needs.Steps.Select(s => s.Trim()).Where(s => s.Length > 0)]);
}
