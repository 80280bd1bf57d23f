using ShopFluids.Rules.Course;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Rules.Registry;

/// <summary>What a rule of the registry may look at: the input of the evaluation, and how the shop has tuned the rule.</summary>
/// <param name="input">Everything that may be looked at.</param>
/// <param name="rule">The rule that is asked.</param>
public sealed class RuleCase(EvaluationInput input, IRule rule)
{
    /// <summary>Everything that may be looked at.</summary>
    public EvaluationInput Input => input;

    /// <summary>The rule that is asked.</summary>
    public IRule Rule => rule;

    /// <summary>The moment of the reading, UTC.</summary>
    public DateTime TakenAt => Input.Reading.TakenAt;

    /// <summary>Whether the shop lets the rule look at this sump.</summary>
    public bool IsOn => Tuned.IsOn;

    /// <summary>What a rule before this one has followed already.</summary>
    internal FollowedCourses Courses { get => field ??= new(Input); init; }

    private static readonly List<PastValue> NoValues = [];

    private TunedRule Tuned => TunedRule.Of(Rule, Input.Tunings);

    /// <summary>A number of the rule: as set, otherwise its default.</summary>
    /// <param name="name">Its name.</param>
    /// <exception cref="InvalidOperationException">The rule has no such number.</exception>
    public decimal Number(string name) => Tuned.Number(name);

    /// <summary>The rule's open flag on a parameter.</summary>
    /// <param name="parameter">The parameter's code; empty for the sump as a whole.</param>
    public OpenFlag? OpenFlag(string parameter) => Input.Standing.OpenFlag(Rule.Code, parameter);

    /// <summary>
    /// What this reading measured, by the method that decides; null where it measured nothing of it, or where a later value is known, so
    /// that nothing follows from this one.
    /// </summary>
    /// <param name="parameter">The parameter's code.</param>
    public MeasurementFacts? Measured(string parameter) => Input.IsLatest(parameter) ? Input.Reading.Decisive(parameter) : null;

    /// <summary>What the charge's readings before this one measured, oldest first, by the method that decides in each.</summary>
    /// <param name="parameter">The parameter's code.</param>
    /// <param name="most">How many of the latest are wanted, 1 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="most"/> is below 1.</exception>
    public IReadOnlyList<PastValue> Before(string parameter, int most = int.MaxValue)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(most, 1);

        // Of most parameters there is nothing: no list is made for them.
        List<PastValue>? past = null;
        var readings = Input.History.Readings;
        for (var i = readings.Count - 1; i >= 0 && !(past?.Count >= most); i--)
        {
            if (readings[i].Decisive(parameter) is { } measured)
            {
                past ??= new(Math.Min(most, i + 1));
                past.Add(new(readings[i].TakenAt, measured.Method, measured.Value, measured.Uncertainty));
            }
        }

        past?.Reverse();
        return past ?? NoValues;
    }
}

/// <summary>A value of an earlier reading.</summary>
/// <param name="TakenAt">When, UTC.</param>
/// <param name="Method">How it was measured.</param>
/// <param name="Value">The value in the parameter's canonical unit.</param>
/// <param name="Uncertainty">Its expanded uncertainty (k = 2).</param>
public readonly record struct PastValue(DateTime TakenAt, string Method, decimal Value, decimal Uncertainty);
