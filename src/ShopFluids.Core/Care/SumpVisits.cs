using ShopFluids.Core.Setup;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Registry;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Rules.Shutdowns;

namespace ShopFluids.Core.Care;

/// <summary>The open work of one sump, gathered into visits. Nothing of it is stored: a due day stays what it is.</summary>
internal sealed class SumpVisits
{
    private readonly Dictionary<Guid, VisitWork> _work;
    private readonly Dictionary<Guid, DateOnly> _days;
    private readonly Dictionary<Guid, Guid> _shared;

    private SumpVisits(Dictionary<Guid, VisitWork> work, Dictionary<Guid, Guid> shared)
    {
        (_work, _shared) = (work, shared);
        _days = VisitPlan.Of(work.Values).SelectMany(v => v.TaskIds.Select(id => (id, v.Day))).ToDictionary(v => v.id, v => v.Day);
    }

    /// <param name="open">All open tasks of the sump, in any order: where two shutdowns ask for what the plan asks for once, it serves the first due.</param>
    public static SumpVisits Of(ShopSetup setup, Guid sumpId, IEnumerable<OpenTask> open, DateTime nowUtc)
    {
        ArgumentNullException.ThrowIfNull(setup);
        var calendar = setup.CalendarFor(sumpId);
        var today = calendar.ShopDayOf(nowUtc);
        var window = RuleRegistry.Gathering.WindowOf(setup.TuningsFor(sumpId, setup.OpenCharge(sumpId)?.FluidId).ByRule);
        var steps = setup.StepFactsOf(sumpId);
        var all = open.OrderBy(t => t.DueAt).ThenBy(t => t.Cause, StringComparer.Ordinal).ToList();
        var work = all.ToDictionary(t => t.Id, t => VisitWork.Of(t, steps.GetValueOrDefault(t.Cause), window, calendar, today));
        var shared = new Dictionary<Guid, Guid>();
        foreach (var asked in all.Where(t => ShutdownWork.IsCause(t.Cause)))
        {
            var serving = all.Where(t => !shared.ContainsKey(t.Id) && ShutdownShare.IsOneWith(t, steps.GetValueOrDefault(t.Cause), asked, calendar, today)).Select(t => t.Id).ToList();
            var day = serving.Append(asked.Id).Min(id => work[id].LatestDay);
            serving.ForEach(id => shared.Add(id, asked.Id));
            serving.Append(asked.Id).ToList().ForEach(id => work[id] = new(id, day, day));
        }

        return new(work, shared);
    }

    /// <summary>The work of a shutdown that is done with a task of the plan or of a flag; null where there is none.</summary>
    public Guid? ServedBy(Guid taskId) => _shared.TryGetValue(taskId, out var served) ? served : null;

    /// <summary>The shop day of the visit to which a task belongs; null for a task that was not among the open ones.</summary>
    public DateOnly? DayOf(Guid taskId) => _days.TryGetValue(taskId, out var day) ? day : null;

    /// <summary>Whether a task can be done by who is at the sump on a day.</summary>
    public bool CanBeDoneOn(Guid taskId, DateOnly day) => _work.TryGetValue(taskId, out var work) && work.EarliestDay <= day;
}
