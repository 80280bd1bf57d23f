using ShopFluids.Calculations.Mixing;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Rules.LateArrival;

/// <summary>Where a charge would stand, had its readings come in the order of their time and nobody ended anything by hand.</summary>
internal sealed class ChargeReplay
{
    private readonly Dictionary<string, LatestValue> _latest = new(StringComparer.Ordinal);
    private readonly List<ReadingFacts> _readings = [];
    private readonly List<(OpenFlag Open, RaisedFlag Raised)> _flags = [];
    private readonly List<(OpenTask Open, ProposedTask? Made)> _tasks;
    private readonly HashSet<(TaskKind Kind, string Cause)> _completed = [];
    private readonly LateCase _case;
    private decimal? _firstPh;
    private int _ids;

    private ChargeReplay(LateCase @case)
    {
        _case = @case;
        _tasks = [.. @case.FirstTests.Select(t => (t, (ProposedTask?)null))];
    }

    /// <summary>The recipe of the last reading, where it has one.</summary>
    public TopUpRecipe? Recipe { get; private set; }

    public IEnumerable<RaisedFlag> Flags => _flags.Select(f => f.Raised);

    public IEnumerable<OpenTask> Tasks => _tasks.Select(t => t.Open);

    public ProposedTask? Made(TaskKind kind, string cause) => _tasks.Find(t => t.Open.Kind == kind && t.Open.Cause == cause).Made;

    /// <summary>Whether the last task of a kind and cause was completed by a reading, and not withdrawn.</summary>
    public bool IsCompleted(TaskKind kind, string cause) => _completed.Contains((kind, cause));

    /// <summary>When a parameter was last measured, or the sump as a whole last read, UTC; null for never.</summary>
    /// <param name="parameter">The parameter's code; empty for the sump as a whole.</param>
    public DateTime? LastLookAt(string parameter) =>
        parameter.Length == 0 ? _readings.LastOrDefault()?.TakenAt : _latest.TryGetValue(parameter, out var latest) ? latest.TakenAt : null;

    /// <param name="case">The case.</param>
    /// <param name="readings">The readings in the order of their time.</param>
    public static ChargeReplay Run(LateCase @case, IReadOnlyList<EvaluationInput> readings)
    {
        var replay = new ChargeReplay(@case);
        foreach (var reading in readings)
        {
            replay.Take(reading);
        }

        return replay;
    }

    private void Take(EvaluationInput input)
    {
        var evaluation = RulesService.Evaluate(input with
        {
            Standing = _case.Late.Standing with { FirstFillPh = _firstPh, Latest = _latest, OpenFlags = [.. _flags.Select(f => f.Open)], OpenTasks = [.. Tasks] },
            Plan = [.. input.Plan.Where(s => !s.Recurs || s.Kind == TaskKind.Test)],
            History = HistoryBefore(input.Reading.TakenAt),
            Now = _case.Late.Now,
        });
        Recipe = evaluation.Recipe;
        Change(evaluation);
        Remember(input.Reading, evaluation.Measurements);
    }

    private void Change(Evaluation evaluation)
    {
        _flags.RemoveAll(f => evaluation.Cleared.Contains(f.Open.Id));
        _flags.AddRange(evaluation.Raised.Select(r => (new OpenFlag(NextId(), r.Rule, r.Parameter, r.Severity, r.Direction, r.Numbers), r)));
        foreach (var (task, _) in _tasks)
        {
            if (evaluation.DoneTasks.Contains(task.Id))
            {
                _completed.Add((task.Kind, task.Cause));
            }
            else if (evaluation.WithdrawnTasks.Contains(task.Id))
            {
                _completed.Remove((task.Kind, task.Cause));
            }
        }

        _tasks.RemoveAll(t => evaluation.DoneTasks.Contains(t.Open.Id) || evaluation.WithdrawnTasks.Contains(t.Open.Id));
        _tasks.AddRange(evaluation.NewTasks.Select(t => (new OpenTask(NextId(), t.Kind, t.Cause, t.DueAt), (ProposedTask?)t)));
    }

    // As the standing is folded: titration has the last word in its reading.
    private void Remember(ReadingFacts reading, IReadOnlyList<JudgedMeasurement> judged)
    {
        foreach (var (measured, verdict) in reading.Measurements.Zip(judged).OrderBy(m => m.First.Method == MethodCodes.Titration).ThenBy(m => m.First.Method, StringComparer.Ordinal))
        {
            _latest[measured.Parameter] = new(measured.Value, measured.Uncertainty, reading.TakenAt, verdict.Verdict, verdict.Direction);
            if (measured.Parameter == ParameterCodes.Ph)
            {
                _firstPh ??= measured.Value;
            }
        }

        _readings.Add(reading);
    }

    private ChargeHistory HistoryBefore(DateTime takenAt)
    {
        var end = _readings.Count;
        while (end > 0 && _readings[end - 1].TakenAt >= takenAt)
        {
            end--;
        }

        var (begin, measurements) = (end, 0);
        var since = takenAt.AddDays(-_case.LeastDays);
        while (begin > 0 && (measurements + _readings[begin - 1].Measurements.Count < _case.LeastMeasurements || _readings[begin - 1].TakenAt >= since))
        {
            begin--;
            measurements += _readings[begin].Measurements.Count;
        }

        return begin == end
            ? ChargeHistory.Empty
            : new(_readings.GetRange(begin, end - begin), [.. _case.Movements.Where(m => m.At > _readings[begin].TakenAt && m.At <= takenAt)]);
    }

    // Ids of this replay alone: they mark what it has made itself.
    private Guid NextId() => new(++_ids, 0, 0, [0, 0, 0, 0, 0, 0, 0, 0]);
}
