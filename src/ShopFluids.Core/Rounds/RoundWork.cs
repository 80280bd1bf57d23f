using ShopFluids.Core.Care;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Core.Rounds;

/// <summary>Work to be done by who is at the sump today, besides the tests that are due.</summary>
/// <param name="IsDue">By the end of this shop day; otherwise it is brought forward, because somebody is there anyway.</param>
public sealed record RoundWork(Guid TaskId, TaskKind Kind, string Cause, DateTime DueAtUtc, bool IsDue)
{
    /// <summary>What goes along today, the earliest due first. Nothing is brought forward where nothing is due at the sump.</summary>
    internal static IReadOnlyList<RoundWork> Of(ShopSetup setup, Guid sumpId, StandingFacts? facts, DateTime nowUtc)
    {
        ArgumentNullException.ThrowIfNull(setup);
        var today = setup.Calendar.ShopDayOf(nowUtc);
        var dayEnd = setup.Calendar.EndOf(today);
        if (facts is null || !facts.OpenTasks.Any(t => t.DueAt <= dayEnd))
        {
            return [];
        }

        var visits = SumpVisits.Of(setup, sumpId, facts.OpenTasks, nowUtc);
        return [.. facts.OpenTasks.Where(t => IsListed(t, dayEnd) && (t.DueAt <= dayEnd || visits.CanBeDoneOn(t.Id, today)))
            .GroupBy(t => SameWork.KeyOf(t.Id, t.Kind, visits))
            .Select(same => (Task: same.OrderBy(t => SameWork.RankOf(t.Kind, t.Cause)).ThenBy(t => t.DueAt).First(), DueAt: same.Min(t => t.DueAt)))
            .OrderBy(w => w.DueAt).ThenBy(w => w.Task.Kind).ThenBy(w => w.Task.Cause, StringComparer.Ordinal)
            .Select(w => new RoundWork(w.Task.Id, w.Task.Kind, w.Task.Cause, w.DueAt, w.DueAt <= dayEnd))];
    }

    // What is due to be measured stands by itself; draining and slides have lists of their own.
    private static bool IsListed(OpenTask task, DateTime dayEnd) =>
        task.Kind is not (TaskKind.DrainClean or TaskKind.ReadSlide) && !(task.Kind == TaskKind.Test && task.DueAt <= dayEnd);
}

/// <summary>A sump at which work is due, and nothing to be read.</summary>
/// <param name="ReadingId">Its last reading, on whose page the work is ticked off; null before the first.</param>
public sealed record RoundService(SumpPlace Place, IReadOnlyList<RoundWork> Work, Guid? ReadingId);
