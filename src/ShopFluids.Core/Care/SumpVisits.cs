using ShopFluids.Core.Setup;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Registry;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Care;

/// <summary>The open work of one sump, gathered into visits. Nothing of it is stored: a due day stays what it is.</summary>
internal sealed class SumpVisits
{
    private readonly Dictionary<Guid, VisitWork> _work;
    private readonly Dictionary<Guid, DateOnly> _days;

    private SumpVisits(Dictionary<Guid, VisitWork> work)
    {
        _work = work;
        _days = VisitPlan.Of(work.Values).SelectMany(v => v.TaskIds.Select(id => (id, v.Day))).ToDictionary(v => v.id, v => v.Day);
    }

    /// <param name="open">All open tasks of the sump.</param>
    public static SumpVisits Of(ShopSetup setup, Guid sumpId, IEnumerable<OpenTask> open, DateTime nowUtc)
    {
        ArgumentNullException.ThrowIfNull(setup);
        var calendar = setup.CalendarFor(sumpId);
        var today = calendar.ShopDayOf(nowUtc);
        var window = RuleRegistry.Gathering.WindowOf(setup.TuningsFor(sumpId, setup.OpenCharge(sumpId)?.FluidId).ByRule);
        var steps = setup.StepsOf(sumpId).ToDictionary(s => CareStep.CauseOf(s.Id), s => setup.FactsOf(s, sumpId), StringComparer.Ordinal);
        return new(open.ToDictionary(t => t.Id, t => VisitWork.Of(t, steps.GetValueOrDefault(t.Cause), window, calendar, today)));
    }

    /// <summary>The shop day of the visit to which a task belongs; null for a task that was not among the open ones.</summary>
    public DateOnly? DayOf(Guid taskId) => _days.TryGetValue(taskId, out var day) ? day : null;

    /// <summary>Whether a task can be done by who is at the sump on a day.</summary>
    public bool CanBeDoneOn(Guid taskId, DateOnly day) => _work.TryGetValue(taskId, out var work) && work.EarliestDay <= day;
}
