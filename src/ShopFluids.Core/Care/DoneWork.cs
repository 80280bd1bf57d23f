using ShopFluids.Core.Setup;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Care;

/// <summary>Which open tasks are done by work that was noted in its own right, such as a drain or a dose.</summary>
internal static class DoneWork
{
    /// <summary>What a flag asked for always is; what recurs by the plan, unless the work was still that of the task before.</summary>
    public static bool Counts(ShopSetup setup, CareTask task, DateTime doneAtUtc)
    {
        if (setup.StepsOf(task.SumpId).FirstOrDefault(s => s.Id == task.StepId) is not { } step)
        {
            return true;
        }

        var facts = setup.FactsOf(step, task.SumpId);
        if (task.IntervalDays is { } days)
        {
            facts = facts with { IntervalDays = ConditionInterval.WholeDays(days) };
        }

        return !facts.Recurs || CareSchedule.CountsFor(facts, task.ToOpen(), doneAtUtc, setup.CalendarFor(task.SumpId));
    }
}
