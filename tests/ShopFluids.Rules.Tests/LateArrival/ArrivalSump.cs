using ShopFluids.Rules.Facts;
using ShopFluids.Rules.LateArrival;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Tests.LateArrival;

/// <summary>A sump in memory to which readings come in any order, at one moment after all of them were taken.</summary>
internal sealed class ArrivalSump
{
    private readonly IReadOnlyList<ParameterLimits> _limits;
    private readonly IReadOnlyList<CareStepFacts> _plan;
    private readonly DateTime _now;
    private readonly List<(ReadingFacts Facts, IReadOnlyList<(MeasurementFacts Measured, Verdict Verdict, Direction Direction)> Judged)> _readings = [];
    private readonly List<OpenFlag> _flags = [];
    private readonly List<OpenTask> _tasks;
    private readonly List<TestItem> _completed = [];
    private readonly List<ClosedByHand> _closed = [];
    private readonly Dictionary<Guid, Guid> _ledBy = [];
    private int _ids = 1000;

    public ArrivalSump(IReadOnlyList<ParameterLimits> limits, IReadOnlyList<CareStepFacts> plan, DateTime begin, DateTime now)
    {
        (_limits, _plan, _now) = (limits, plan, now);
        _tasks = [.. plan.Where(s => s.Recurs).Select(s => new OpenTask(Some.Id(++_ids), s.Kind, CareSchedule.CauseOf(s.Id), CareSchedule.First(s, null, begin, Calendar).DueAt))];
    }

    public static ShopCalendar Calendar { get; } = Some.Calendar();

    public IReadOnlyList<OpenFlag> Flags => _flags;

    public IReadOnlyList<OpenTask> Tasks => _tasks;

    /// <summary>What is open, and what was measured last. Of a limit's flag not the numbers: they tell what was found first of what arrived first.</summary>
    public string State => Told(t => CareSchedule.IsCauseOfStep(t.Cause) ? $"{t.Kind} {t.Cause} {t.DueAt:u}" : $"{t.Kind} {t.Cause}");

    /// <summary>The same without the days on which tests of the plan are due: where a wrong reading stood for a visit, the visit took place.</summary>
    public string StateButDueDays => Told(t => $"{t.Kind} {t.Cause}");

    private string Told(Func<OpenTask, string> task) => string.Join('\n', _flags
        .Select(f => $"{f.Rule}:{f.Parameter} {f.Severity} {f.Direction} {(f.Rule is "limit" or "first-fill-drop" ? "" : string.Join(' ', f.Numbers.OrderBy(n => n.Key, StringComparer.Ordinal)))}")
        .Concat(_tasks.Select(task))
        .Concat(Standing().Latest.Select(l => $"{l.Key} {l.Value.Value} {l.Value.TakenAt:u}"))
        .Order(StringComparer.Ordinal));

    /// <param name="reading">The reading.</param>
    /// <param name="supersedes">The reading that it corrects.</param>
    public void Post(ReadingFacts reading, Guid? supersedes = null)
    {
        var known = _readings.Select(r => Input(r.Facts)).ToList();
        _readings.RemoveAll(r => r.Facts.Id == supersedes);
        var led = _ledBy.Where(l => l.Value == supersedes).Select(l => l.Key).ToHashSet();
        var input = Input(reading) with
        {
            Standing = Standing(),
            History = new([.. _readings.Select(r => r.Facts).Where(r => r.TakenAt < reading.TakenAt)], []),
        };
        var evaluation = RulesService.Evaluate(input);
        if (supersedes is not null || _readings.Exists(r => r.Facts.TakenAt > reading.TakenAt))
        {
            var tests = _completed.Concat(_tasks.Where(t => t.Kind == TaskKind.Test && CareSchedule.IsCauseOfStep(t.Cause)).Select(t => new TestItem(t, TestEnd.Open)));
            evaluation = LateFindings.Settle(new(input, known, [], TestSeries.Firsts(tests), 400, 183) { Superseded = supersedes, Led = led, Closed = _closed }, evaluation);
        }

        _flags.RemoveAll(f => evaluation.Cleared.Contains(f.Id));
        _flags.AddRange(evaluation.Raised.Select(f => new OpenFlag(Led(reading), f.Rule, f.Parameter, f.Severity, f.Direction, f.Numbers)));
        _completed.AddRange(_tasks.Where(t => evaluation.DoneTasks.Contains(t.Id) && CareSchedule.IsCauseOfStep(t.Cause)).Select(t => new TestItem(t, TestEnd.ByReading)));
        _tasks.RemoveAll(t => evaluation.DoneTasks.Contains(t.Id) || evaluation.WithdrawnTasks.Contains(t.Id));
        _tasks.AddRange(evaluation.NewTasks.Select(t => new OpenTask(Led(reading), t.Kind, t.Cause, t.DueAt)));
        _readings.Add((reading, [.. reading.Measurements.Zip(evaluation.Measurements, (m, j) => (m, j.Verdict, j.Direction))]));
        _readings.Sort((a, b) => a.Facts.TakenAt.CompareTo(b.Facts.TakenAt));
    }

    /// <summary>A person ends what is open of a kind.</summary>
    public void Finish(Predicate<OpenTask> which) => _tasks.RemoveAll(which);

    /// <summary>A supervisor closes flags.</summary>
    public void Close(Predicate<OpenFlag> which)
    {
        _closed.AddRange(_flags.FindAll(which).Select(f => new ClosedByHand(f.Rule, f.Parameter, f.Severity, _now)));
        _flags.RemoveAll(which);
    }

    private Guid Led(ReadingFacts reading)
    {
        var id = Some.Id(++_ids);
        _ledBy[id] = reading.Id;
        return id;
    }

    private EvaluationInput Input(ReadingFacts reading) => new(Some.Sump(), Some.Fluid(), Standing(), reading, _limits, _plan, Calendar, _now);

    private StandingFacts Standing()
    {
        var latest = new Dictionary<string, LatestValue>(StringComparer.Ordinal);
        foreach (var (facts, judged) in _readings)
        {
            foreach (var (measured, verdict, direction) in judged)
            {
                latest[measured.Parameter] = new(measured.Value, measured.Uncertainty, facts.TakenAt, verdict, direction);
            }
        }

        var firstPh = _readings.SelectMany(r => r.Facts.Measurements).FirstOrDefault(m => m.Parameter == ParameterCodes.Ph)?.Value;
        return new(_now.AddYears(-1), firstPh, latest, [.. _flags], [.. _tasks]);
    }
}
