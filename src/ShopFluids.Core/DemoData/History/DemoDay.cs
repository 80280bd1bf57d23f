using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.DemoData.Seed;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.OverdueTest;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.DemoData.History;

/// <summary>One day of the shop: what is due is done, mostly on time; what a reading asks for follows before noon.</summary>
internal sealed class DemoDay(DemoScene scene, DemoStores stores, IReadOnlyList<SumpModel> sumps)
{
    /// <summary>Nobody is late any more in the last days, but for those whom the story makes late.</summary>
    private const int PunctualDays = 14;

    private readonly DemoVisits _visits = new(scene, stores);
    private readonly DemoCare _care = new(scene, stores);
    private readonly DemoChecks _checks = new(scene);
    private readonly DemoDoses _doses = new(scene);
    private readonly Dictionary<string, DateOnly> _postponed = new(StringComparer.Ordinal);
    private Dictionary<string, StandingFacts> _facts = new(StringComparer.Ordinal);
    private Dictionary<Guid, IReadOnlyList<string>> _steps = [];

    /// <summary>Every sump gets its first charge and its care plan on the first day.</summary>
    public async Task FillAllAsync(DemoOpening opening, CancellationToken cancellationToken)
    {
        await stores.ReceiveAsync(scene.FirstDay.AddDays(-1), cancellationToken);
        foreach (var sump in sumps)
        {
            scene.Time.Advance(TimeSpan.FromMinutes(20));
            await _care.FillAsync(sump, cancellationToken);
            await opening.PlanAsync(scene, sump.Seed, cancellationToken);
        }
    }

    public async Task LiveAsync(DateOnly day, CancellationToken cancellationToken)
    {
        var isOpen = scene.Calendar.IsOpen(day);
        scene.Time.Set(scene.Calendar.StartOf(day).AddMinutes(10));
        await stores.ReceiveAsync(day, cancellationToken);
        await _checks.NoteAsync(day, cancellationToken);
        await TellAsync(scene.EventsOn(day).Where(e => e.Kind != EventKind.Refill), cancellationToken);
        await LookAsync(cancellationToken);
        await NoticeAsync(cancellationToken);

        await CareAsync(day, isOpen, IsOfPlan, cancellationToken);
        var isRead = await RoundAsync(day, isOpen, cancellationToken);
        if (isRead)
        {
            await LookAsync(cancellationToken);
            await CareAsync(day, isOpen, task => !IsOfPlan(task), cancellationToken);
        }

        foreach (var refill in scene.EventsOn(day).Where(e => e.Kind == EventKind.Refill))
        {
            await RefillAsync(refill, cancellationToken);
        }

        foreach (var dose in scene.DosesOn(day))
        {
            await _doses.GiveAsync(sumps.First(s => s.Seed.Tag == dose.Sump), dose, cancellationToken);
        }

        foreach (var sump in sumps)
        {
            sump.Live(isOpen, (kind, otherwise) => scene.Condition(sump.Seed.Tag, kind, day, otherwise));
        }
    }

    /// <summary>The night shift's last readings, at the very start of today; the rest of today is left to whoever looks at the demo.</summary>
    public async Task BeginTodayAsync(CancellationToken cancellationToken)
    {
        var start = scene.Calendar.StartOf(scene.Today);
        scene.Time.Set(start);
        await stores.ReceiveAsync(scene.Today, cancellationToken);
        await LookAsync(cancellationToken);
        await NoticeAsync(cancellationToken);
        foreach (var (place, story) in scene.Seed.Story.Events.Where(e => e.Day == 0).Index())
        {
            scene.Time.Set(start.AddMinutes(3 * place));
            await TellAsync([story], cancellationToken);
        }
    }

    private async Task TellAsync(IEnumerable<StoryEvent> events, CancellationToken cancellationToken)
    {
        foreach (var story in events)
        {
            switch (story.Kind)
            {
                case EventKind.Note or EventKind.Mistype:
                    _visits.Expect(story);
                    break;
                case EventKind.Flood:
                    Sump(story).Flood(story.Value);
                    break;
                case EventKind.Read:
                    await _visits.TestAsync(Sump(story), ParametersDue(Sump(story), scene.Today), isTopUpLater: true, cancellationToken);
                    break;
                case EventKind.Slide:
                    await _visits.RepeatAsync(Sump(story), ParameterCodes.Bacteria, cancellationToken);
                    break;
                case EventKind.CloseFlags:
                    await _care.CloseFlagsAsync(Sump(story), story.Text, cancellationToken);
                    break;
                case EventKind.Assign:
                    await _care.AssignAsync(Sump(story), story.Text, cancellationToken);
                    break;
                case EventKind.Quarantine:
                    await stores.QuarantineAsync(story, cancellationToken);
                    break;
                case EventKind.Refill:
                    await RefillAsync(story, cancellationToken);
                    break;
                default:
                    throw new InvalidDataException($"The story knows no {story.Kind}.");
            }
        }
    }

    private Task RefillAsync(StoryEvent story, CancellationToken cancellationToken) =>
        _care.RefillAsync(Sump(story), Facts(Sump(story))?.OpenTasks.FirstOrDefault(t => t.Kind == TaskKind.DrainClean && IsOfPlan(t)), cancellationToken);

    /// <summary>Work that is no test, of the plan or not.</summary>
    private async Task CareAsync(DateOnly day, bool isOpen, Func<OpenTask, bool> which, CancellationToken cancellationToken)
    {
        if (!isOpen)
        {
            return;
        }

        foreach (var sump in sumps.Where(s => !Holds(s, ConditionKind.Standing, day) && !Holds(s, ConditionKind.LeftAlone, day)))
        {
            var due = (Facts(sump)?.OpenTasks ?? []).Where(t => t.Kind is not (TaskKind.Test or TaskKind.Adjust) && which(t) && DueDay(t) <= NextOpen(day)).ToList();
            foreach (var task in due.Where(t => !IsOfPlan(t) || DueDay(t) <= day))
            {
                await _care.DoAsync(sump, task, cancellationToken);
                if (task.Kind == TaskKind.DrainClean)
                {
                    // What else was due of the old fluid has gone with it, or is done on the next day.
                    break;
                }
            }

            foreach (var test in (Facts(sump)?.OpenTasks ?? []).Where(t => t.Kind == TaskKind.Test && !IsOfPlan(t) && which(t)))
            {
                await _visits.RepeatAsync(sump, test.Cause.Split(':')[1], cancellationToken);
            }
        }
    }

    /// <returns>Whether anything was read.</returns>
    private async Task<bool> RoundAsync(DateOnly day, bool isOpen, CancellationToken cancellationToken)
    {
        var isRead = false;
        foreach (var sump in sumps.Where(s => !Holds(s, ConditionKind.Standing, day) && !Holds(s, ConditionKind.Untested, day)))
        {
            var due = TestsDue(sump, day).ToList();
            if (due.Count == 0 || (!isOpen && due.TrueForAll(t => DueDay(t) < day)) || IsPutOff(sump, day))
            {
                continue;
            }

            await _visits.TestAsync(sump, ParametersDue(sump, day), Holds(sump, ConditionKind.LeftAlone, day), cancellationToken);
            isRead = true;
        }

        return isRead;
    }

    // One in thirty tests waits a day or two.
    private bool IsPutOff(SumpModel sump, DateOnly day)
    {
        if (_postponed.TryGetValue(sump.Seed.Tag, out var until))
        {
            if (day < until)
            {
                return true;
            }

            _postponed.Remove(sump.Seed.Tag);
            return false;
        }

        if (scene.FromToday(day) > -PunctualDays || !sump.Chance.Happens(0.033))
        {
            return false;
        }

        _postponed[sump.Seed.Tag] = day.AddDays(sump.Chance.Happens(0.5) ? 1 : 2);
        return true;
    }

    private List<string> ParametersDue(SumpModel sump, DateOnly day)
    {
        var causes = TestsDue(sump, day).Select(t => t.Cause).ToHashSet(StringComparer.Ordinal);
        return [.. _steps.Where(s => causes.Contains(CareStep.CauseOf(s.Key))).SelectMany(s => s.Value).Distinct(StringComparer.Ordinal)];
    }

    private IEnumerable<OpenTask> TestsDue(SumpModel sump, DateOnly day) =>
        (Facts(sump)?.OpenTasks ?? []).Where(t => t.Kind == TaskKind.Test && IsOfPlan(t) && DueDay(t) <= day);

    private async Task LookAsync(CancellationToken cancellationToken)
    {
        var setup = await scene.Commands.Setups.CurrentAsync(cancellationToken);
        await using var db = await scene.Commands.OpenAsync(cancellationToken);
        var standings = await db.Standings.AsNoTracking().Select(s => new { s.SumpId, s.Facts }).ToListAsync(cancellationToken);
        var tags = setup.Sumps.ToDictionary(s => s.Id, s => s.Tag);
        _facts = standings.Where(s => s.Facts is not null).ToDictionary(s => tags[s.SumpId], s => s.Facts ?? throw new InvalidOperationException("No facts."), StringComparer.Ordinal);
        _steps = setup.Plans.SelectMany(p => p.Steps).ToDictionary(s => s.Id, s => s.Parameters);
    }

    private async Task NoticeAsync(CancellationToken cancellationToken)
    {
        var now = scene.Time.UtcNow;
        if (_facts.Values.Any(f => f.OpenTasks.Any(t => OverdueTestRule.IsLate(t, now)) && f.OpenFlags.All(o => o.Rule != OverdueTestRule.Code)))
        {
            await scene.Commands.NoticeOverdue.HandleAsync(cancellationToken);
        }

        // What was found of lots and instruments, and what nobody answered, long ago is nobody's business any more.
        if (scene.FromToday(scene.Calendar.ShopDayOf(now)) >= -PunctualDays)
        {
            await scene.Commands.NoticeShopFlags.HandleAsync(cancellationToken);
            await scene.Commands.EscalateFlags.HandleAsync(cancellationToken);
        }
    }

    private bool Holds(SumpModel sump, ConditionKind kind, DateOnly day) => scene.Condition(sump.Seed.Tag, kind, day, 0) > 0;

    private StandingFacts? Facts(SumpModel sump) => _facts.GetValueOrDefault(sump.Seed.Tag);

    private DateOnly DueDay(OpenTask task) => CareSchedule.DueDayOf(task.DueAt, scene.Calendar);

    private DateOnly NextOpen(DateOnly day) => OpenDays.OnOrAfter(day.AddDays(1), scene.Calendar);

    private static bool IsOfPlan(OpenTask task) => CareSchedule.IsPlanned(task.Cause);

    private SumpModel Sump(StoryEvent story) => sumps.First(s => s.Seed.Tag == story.Sump);
}
