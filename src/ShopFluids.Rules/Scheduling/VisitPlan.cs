namespace ShopFluids.Rules.Scheduling;

/// <summary>Work at one sump that is done in one go.</summary>
/// <param name="Day">The shop day: the last on which the most urgent of it is in time.</param>
/// <param name="TaskIds">The tasks, the first due first.</param>
public sealed record Visit(DateOnly Day, IReadOnlyList<Guid> TaskIds);

/// <summary>
/// Gathers the work of one sump into as few visits as its days allow: the task that has to be done first sets the day, and everything that can be done on
/// that day goes along; then the same with what is left. No set of days serves all tasks with fewer visits, because no two of the tasks that set a day
/// have a day in common (points that pierce intervals, by the earliest right end; a textbook result, from memory).
/// </summary>
public static class VisitPlan
{
    /// <summary>The visits, the earliest first, each on a day of its own; every task is in exactly one.</summary>
    /// <param name="work">The open tasks of one sump, in any order.</param>
    /// <exception cref="ArgumentException">A task may begin only after it is due.</exception>
    public static IReadOnlyList<Visit> Of(IEnumerable<VisitWork> work)
    {
        ArgumentNullException.ThrowIfNull(work);
        var left = work.OrderBy(w => w.LatestDay).ThenBy(w => w.EarliestDay).ThenBy(w => w.TaskId).ToList();
        if (left.Exists(w => w.EarliestDay > w.LatestDay))
        {
            throw new ArgumentException("A task can be done from its earliest to its latest day.", nameof(work));
        }

        var visits = new List<Visit>();
        while (left.Count > 0)
        {
            var day = left[0].LatestDay;
            visits.Add(new(day, [.. left.Where(w => w.EarliestDay <= day).Select(w => w.TaskId)]));
            left.RemoveAll(w => w.EarliestDay <= day);
        }

        return visits;
    }
}
