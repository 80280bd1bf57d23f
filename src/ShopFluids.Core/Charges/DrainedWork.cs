using ShopFluids.Core.Care;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Charges;

/// <summary>
/// What the end of a charge does with the open work of its sump: draining that was asked for is done, what only this charge asked for goes, and
/// skimming by the plan begins anew, because the oil has gone with the fluid.
/// </summary>
internal sealed record DrainedWork(IReadOnlyList<CareTask> Done, IReadOnlyList<CareTask> Withdrawn, IReadOnlyList<CareTask> BeginAnew)
{
    public static DrainedWork Of(ShopSetup setup, Guid sumpId, IReadOnlyCollection<CareTask> open, DateTime drainedAtUtc)
    {
        var once = setup.StepsOf(sumpId).Where(s => !setup.FactsOf(s, sumpId).Recurs).Select(s => s.Id).ToHashSet();
        var done = open.Where(t => t.Kind == TaskKind.DrainClean && DoneWork.ByDrain(setup, t, drainedAtUtc)).ToList();
        var anew = open.Where(t => t.Kind == TaskKind.Skim && t.StepId is { } step && !once.Contains(step) && DoneWork.ByDrain(setup, t, drainedAtUtc)).ToList();
        return new(done, [.. open.Except(done).Where(t => !CareSchedule.IsPlanned(t.Cause) || (t.StepId is { } step && once.Contains(step))), .. anew], anew);
    }

    public void End(DateTime atUtc, Guid? personId)
    {
        foreach (var task in Done)
        {
            task.End(TaskState.Done, atUtc, personId);
        }

        foreach (var task in Withdrawn)
        {
            task.End(TaskState.Withdrawn, atUtc, null);
        }
    }
}
