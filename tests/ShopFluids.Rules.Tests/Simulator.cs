using System.Text.Json;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Tests;

/// <summary>A sump in memory that applies what the rules answer, as the service around them does.</summary>
internal sealed class Simulator(IReadOnlyList<ParameterLimits> limits, IReadOnlyList<CareStepFacts> plan, ShopCalendar calendar)
{
    private readonly Dictionary<string, LatestValue> _latest = [];
    private readonly List<OpenFlag> _flags = [];
    private readonly List<OpenTask> _tasks = [];
    private readonly List<string> _answers = [];
    private readonly List<ReadingFacts> _readings = [];
    private readonly List<MovementFacts> _movements = [];
    private decimal? _firstFillPh;
    private int _ids;

    public IReadOnlyList<OpenFlag> Flags => _flags;

    public IReadOnlyList<OpenTask> Tasks => _tasks;

    /// <summary>Every answer so far, as text that is compared byte for byte.</summary>
    public string History => string.Join('\n', _answers);

    public Evaluation Apply(ReadingFacts reading)
    {
        var input = new EvaluationInput(Some.Sump(), Some.Fluid(), Standing(reading.TakenAt), reading, limits, plan, calendar, reading.TakenAt)
        {
            History = new([.. _readings], [.. _movements.Where(m => _readings.Count > 0 && m.At > _readings[0].TakenAt)]),
        };
        var evaluation = RulesService.Evaluate(input);
        _answers.Add(JsonSerializer.Serialize(evaluation));
        _flags.RemoveAll(f => evaluation.Cleared.Contains(f.Id));
        _flags.AddRange(evaluation.Raised.Select(ToOpen));
        _tasks.RemoveAll(t => evaluation.DoneTasks.Contains(t.Id) || evaluation.WithdrawnTasks.Contains(t.Id));
        _tasks.AddRange(evaluation.NewTasks.Select(t => new OpenTask(Some.Id(++_ids), t.Kind, t.Cause, t.DueAt)));
        foreach (var (measured, judged) in reading.Measurements.Zip(evaluation.Measurements))
        {
            _latest[measured.Parameter] = new(measured.Value, measured.Uncertainty, reading.TakenAt, judged.Verdict, judged.Direction);
        }

        _readings.Add(reading);
        _firstFillPh ??= reading.Measurements.FirstOrDefault(m => m.Parameter == ParameterCodes.Ph)?.Value;
        return evaluation;
    }

    /// <summary>Puts something in or takes something out; before the next reading.</summary>
    public void Move(MovementFacts movement) => _movements.Add(movement);

    /// <summary>Somebody does work that is not a test.</summary>
    public void Finish(Predicate<OpenTask> which) => _tasks.RemoveAll(which);

    public void Tick(DateTime now)
    {
        var raised = RulesService.EvaluateClock(Standing(now), calendar, Some.NoTunings, now);
        _answers.Add(JsonSerializer.Serialize(raised));
        _flags.AddRange(raised.Select(ToOpen));
    }

    private StandingFacts Standing(DateTime now) =>
        new(now.AddYears(-1), _firstFillPh, new Dictionary<string, LatestValue>(_latest), [.. _flags], [.. _tasks]);

    private OpenFlag ToOpen(RaisedFlag flag) => new(Some.Id(++_ids), flag.Rule, flag.Parameter, flag.Severity, flag.Direction, flag.Numbers);
}
