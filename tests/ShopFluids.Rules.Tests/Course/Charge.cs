using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Rules.Tests.Course;

/// <summary>
/// A charge that is read once a week, or whenever a test says, and judged by one rule alone; the sump is <see cref="Some.Sump"/>, 1 L for each
/// millimetre.
/// </summary>
internal sealed class Charge(IRule rule, params ParameterLimits[] limits)
{
    private readonly List<ReadingFacts> _readings = [];
    private readonly List<MovementFacts> _movements = [];
    private readonly Dictionary<string, OpenFlag> _open = [];
    private readonly List<string> _raised = [];
    private int _ids;

    public DateTime Now { get; private set; } = Some.Now;

    /// <summary>The flag that is open, if any.</summary>
    public OpenFlag? Open => _open.Values.SingleOrDefault();

    /// <summary>How many flags were raised so far.</summary>
    public int Raised => _raised.Count;

    /// <summary>How many of them on a parameter.</summary>
    public int RaisedOf(string parameter) => _raised.Count(p => p == parameter);

    public Dictionary<string, decimal> Numbers { get; } = [];

    /// <summary>Flags of other rules that are open.</summary>
    public List<OpenFlag> Others { get; } = [];

    /// <summary>Time goes by.</summary>
    public Charge After(double days)
    {
        Now = Now.AddDays(days);
        return this;
    }

    public Charge Moves(double water = 0, double concentrate = 0, double removed = 0)
    {
        _movements.Add(new(Now, water, concentrate, removed));
        return this;
    }

    /// <summary>A reading that arrives only now, among those already there; it is not judged.</summary>
    public void Slips(double daysAgo, params MeasurementFacts[] measurements)
    {
        var at = Now.AddDays(-daysAgo);
        _readings.Insert(_readings.Count(r => r.TakenAt <= at), new(Some.Id(++_ids), at, measurements));
    }

    /// <summary>The open flag is one that was raised without a number.</summary>
    public void Forgets(string number)
    {
        foreach (var (parameter, open) in _open.ToList())
        {
            _open[parameter] = open with { Numbers = open.Numbers.Where(n => n.Key != number).ToDictionary() };
        }
    }

    /// <summary>Readings of one parameter, one a week.</summary>
    public Charge Reads(string parameter, params decimal[] values)
    {
        foreach (var value in values)
        {
            Reads(Some.Measured(parameter, value));
            After(7);
        }

        return this;
    }

    /// <summary>A reading now. What it makes of the flags is kept.</summary>
    /// <returns>What the rule makes of it.</returns>
    public IReadOnlyList<RuleOpinion> Reads(params MeasurementFacts[] measurements)
    {
        var reading = new ReadingFacts(Some.Id(++_ids), Now, measurements);
        var opinions = Judge(reading);
        foreach (var opinion in opinions)
        {
            if (opinion.Flag is not { } flag)
            {
                _open.Remove(opinion.Parameter);
            }
            else if (opinion.IsAnother || !(_open.TryGetValue(flag.Parameter, out var open) && open.Direction == flag.Direction && open.Severity == flag.Severity))
            {
                _raised.Add(flag.Parameter);
                _open[flag.Parameter] = new(Some.Id(1000 + Raised), flag.Rule, flag.Parameter, flag.Severity, flag.Direction, flag.Numbers);
            }
        }

        _readings.Add(reading);
        return opinions;
    }

    /// <summary>What the rule would make of a reading, which is not kept.</summary>
    public IReadOnlyList<RuleOpinion> Judge(ReadingFacts reading, DateTime? laterKnown = null)
    {
        var latest = reading.Measurements.DistinctBy(m => m.Parameter)
            .Where(_ => laterKnown is not null)
            .ToDictionary(m => m.Parameter, m => Some.Latest(m.Value, laterKnown ?? default));
        var standing = new StandingFacts(Some.Now, null, latest, [.. Others, .. _open.Values], []);
        var input = new EvaluationInput(Some.Sump(), Some.Fluid(), standing, reading, limits, [], Some.Calendar(), reading.TakenAt)
        {
            History = new([.. _readings], [.. _movements.Where(m => _readings.Count > 0 && m.At > _readings[0].TakenAt && m.At <= reading.TakenAt)]),
            Tunings = new Dictionary<string, RuleTuning> { [rule.Code] = new(rule.Code, true, Numbers) },
        };
        return [.. rule.Check(new(input, rule))];
    }
}
