using ShopFluids.Core.Setup;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Care;

/// <summary>Which open tasks are done by work that was noted in its own right.</summary>
internal static class DoneWork
{
    /// <summary>What a flag or an event asked for always is done by a drain; what recurs by the plan, unless the drain was still that of the task before.</summary>
    public static bool ByDrain(ShopSetup setup, CareTask task, DateTime doneAtUtc) =>
        FactsOf(setup, task) is not { Recurs: true } facts || Counts(setup, task, facts, doneAtUtc);

    /// <summary>A dose does what the plan asks for about its day, and what a flag asked for before it: one given earlier was no answer to it.</summary>
    public static bool ByDose(ShopSetup setup, CareTask task, DateTime doneAtUtc) =>
        FactsOf(setup, task) is { } facts ? Counts(setup, task, facts, doneAtUtc) : doneAtUtc >= task.CreatedAtUtc;

    private static bool Counts(ShopSetup setup, CareTask task, CareStepFacts facts, DateTime doneAtUtc) =>
        CareSchedule.CountsFor(facts, task.ToOpen(), doneAtUtc, setup.CalendarFor(task.SumpId));

    /// <returns>Null for what no step of the plan asked for.</returns>
    private static CareStepFacts? FactsOf(ShopSetup setup, CareTask task)
    {
        if (setup.StepsOf(task.SumpId).FirstOrDefault(s => s.Id == task.StepId) is not { } step)
        {
            return null;
        }

        var facts = setup.FactsOf(step, task.SumpId);
        return task.IntervalDays is { } days ? facts with { IntervalDays = ConditionInterval.WholeDays(days) } : facts;
    }
}
