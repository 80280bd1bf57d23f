namespace ShopFluids.Rules.Patterns;

/// <summary>What is known says of a condition.</summary>
public enum Support
{
    /// <summary>Not known, or too close to tell.</summary>
    Unknown = 0,

    /// <summary>It holds.</summary>
    For = 1,

    /// <summary>It does not hold.</summary>
    Against = 2,
}

/// <summary>Holds conditions against what is known. Against takes more than doubt: a number must miss the condition by more than its uncertainty.</summary>
public static class PatternEvidence
{
    /// <summary>What is known says of a condition.</summary>
    /// <param name="condition">The condition.</param>
    /// <param name="facts">What is known.</param>
    public static Support Judge(PatternCondition condition, PatternFacts facts)
    {
        ArgumentNullException.ThrowIfNull(condition);
        ArgumentNullException.ThrowIfNull(facts);
        return condition.Comparison switch
        {
            // A flag that is not open may only want one more reading.
            Comparison.IsOpen => facts.OpenRules.Contains(condition.Subject) ? Support.For : Support.Unknown,
            Comparison.IsLow => Side(condition, facts, Direction.Low),
            Comparison.IsHigh => Side(condition, facts, Direction.High),
            Comparison.IsWithin => Side(condition, facts, null),
            Comparison.Fell => facts.Changes.TryGetValue(condition.Subject, out var change) ? Changed(-change.Value, change.Uncertainty, condition.Number) : Support.Unknown,
            Comparison.Rose => facts.Changes.TryGetValue(condition.Subject, out var change) ? Changed(change.Value, change.Uncertainty, condition.Number) : Support.Unknown,
            _ => facts.Values.TryGetValue(condition.Subject, out var number) ? Compared(number, condition) : Support.Unknown,
        };
    }

    /// <summary>Whether a symptom is there: seen, or shown by what is known.</summary>
    /// <param name="symptom">The symptom.</param>
    /// <param name="facts">What is known.</param>
    public static bool IsThere(PatternSymptom symptom, PatternFacts facts)
    {
        ArgumentNullException.ThrowIfNull(symptom);
        ArgumentNullException.ThrowIfNull(facts);
        return facts.Seen.Contains(symptom.Code) || symptom.ShownBy.Any(all => all.All(c => Judge(c, facts) == Support.For));
    }

    private static Support Side(PatternCondition condition, PatternFacts facts, Direction? wanted) =>
        !facts.Judged.TryGetValue(condition.Subject, out var side) ? Support.Unknown : side == wanted ? Support.For : Support.Against;

    // A change must pass the number and stand out of the noise.
    private static Support Changed(decimal by, decimal uncertainty, decimal least) =>
        by >= least && by > uncertainty ? Support.For
        : by + uncertainty < least ? Support.Against
        : Support.Unknown;

    // The number shown is the number judged.
    private static Support Compared(PatternNumber number, PatternCondition condition)
    {
        var (value, doubt, wanted) = (number.Value, number.Uncertainty, condition.Number);
        var (holds, isMissed) = condition.Comparison switch
        {
            Comparison.Equal => (value == wanted, Math.Abs(value - wanted) > doubt),
            Comparison.AtLeast => (value >= wanted, value + doubt < wanted),
            Comparison.Over => (value > wanted, value + doubt <= wanted),
            Comparison.AtMost => (value <= wanted, value - doubt > wanted),
            Comparison.Under => (value < wanted, value - doubt >= wanted),
            _ => throw new ArgumentOutOfRangeException(nameof(condition), condition.Comparison, "Not a comparison of numbers."),
        };
        return holds ? Support.For : isMissed ? Support.Against : Support.Unknown;
    }
}
