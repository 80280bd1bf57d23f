using ShopFluids.Core.Database;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Live;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Care.Templates;

/// <summary>Puts steps of a template on a sump's care plan, all in one act; their first tasks are made at once.</summary>
public sealed record ApplyCareTemplate(string SumpTag, FluidKind FluidKind, MachineUse Use, IReadOnlyList<TemplateChoice> Steps);

/// <param name="Id">Of the step to be made.</param>
/// <param name="Code">Of the template's step.</param>
public sealed record TemplateChoice(Guid Id, string Code);

/// <param name="Steps">How many steps were added; 0 where the same was sent before.</param>
public sealed record AppliedTemplate(int Steps);

public sealed class ApplyCareTemplateHandler(ShopDatabase database, SetupCache setups, ShopClock clock, ShopNews news)
{
    public async Task<Result<AppliedTemplate>> HandleAsync(ApplyCareTemplate command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        ArgumentNullException.ThrowIfNull(actor);
        await using var write = await database.WriteAsync(cancellationToken);
        var setup = await setups.ForAsync(write, cancellationToken);
        if (setup.FindSump(command.SumpTag) is not { } sump)
        {
            return new SumpNotFound(command.SumpTag);
        }

        if (sump.IsRetired)
        {
            return new SumpRetired(sump.Tag);
        }

        var known = setup.Plans.SelectMany(p => p.Steps).Select(s => s.Id).ToHashSet();
        var wanted = command.Steps.Where(s => !known.Contains(s.Id)).ToList();
        if (command.Steps.Count > 0 && wanted.Count == 0)
        {
            return new AppliedTemplate(0);
        }

        var today = setup.Calendar.ShopDayOf(clock.UtcNow);
        var errors = new List<FieldError>();
        var steps = new List<AddCareStep>();
        foreach (var choice in wanted)
        {
            if (CareTemplates.Find(choice.Code, command.FluidKind, command.Use, DeliveryOf(setup, sump)) is { } step)
            {
                steps.Add(StepOf(step, choice.Id, sump.Tag, today));
                errors.AddRange(CareStepMaker.Check(steps[^1], setup, sump, today));
            }
            else
            {
                errors.Add(new(StepsField, FieldProblem.UnknownChoice, Detail: choice.Code));
            }
        }

        if (command.Steps.Count == 0)
        {
            errors.Add(new(StepsField, FieldProblem.Missing));
        }

        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        await CareStepMaker.AddAsync(write, setup, clock, sump, [.. steps.Zip(wanted, (s, w) => CareStepMaker.Made(s, w.Code))], cancellationToken);
        await write.CommitAsync(new Act(ActCodes.CareTemplateApplied, actor, clock.UtcNow, sump.Tag), cancellationToken);
        news.Publish(sump.Id);
        return new AppliedTemplate(steps.Count);
    }

    public const string StepsField = "templateSteps";

    /// <summary>How fluid reaches the cut on any machine of a sump.</summary>
    public static Delivery DeliveryOf(ShopSetup setup, Sump sump)
    {
        ArgumentNullException.ThrowIfNull(setup);
        return setup.MachinesOf(sump).Aggregate(Delivery.None, (all, m) => all | m.Delivery);
    }

    /// <summary>The step that would be made, for those who look before they apply; it belongs to no plan.</summary>
    public static CareStep Preview(AddCareStep typed) => CareStepMaker.Made(typed)(Guid.Empty);

    /// <summary>The step as it would be typed.</summary>
    public static AddCareStep StepOf(TemplateStep step, Guid id, string sumpTag, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(step);
        return new(id, sumpTag, step.Kind, step.Basis, step.IntervalDays, today.AddDays(step.FirstAfterDays), step.ClosedDays, step.Parameters, step.Minutes)
        {
            IntervalMonths = step.IntervalMonths,
            FloorDays = step.FloorDays,
            CeilingDays = step.CeilingDays,
            WantedFind = step.WantedFind,
            Needs = TemplateSentences.NeedsOf(step.Code),
        };
    }
}
