using System.Globalization;

namespace ShopFluids.Rules.Patterns;

/// <summary>How a subject is compared.</summary>
public enum Comparison
{
    /// <summary>Beyond a lower limit in force.</summary>
    IsLow = 0,

    /// <summary>Within the limits in force.</summary>
    IsWithin = 1,

    /// <summary>Beyond an upper limit in force.</summary>
    IsHigh = 2,

    /// <summary>Fallen by so much or more.</summary>
    Fell = 3,

    /// <summary>Risen by so much or more.</summary>
    Rose = 4,

    /// <summary>Just so much.</summary>
    Equal = 5,

    /// <summary>So much or more.</summary>
    AtLeast = 6,

    /// <summary>More.</summary>
    Over = 7,

    /// <summary>So much or less.</summary>
    AtMost = 8,

    /// <summary>Less.</summary>
    Under = 9,

    /// <summary>A flag of the rule is open.</summary>
    IsOpen = 10,
}

/// <summary>One condition of the pattern table.</summary>
/// <param name="Subject">A code of <see cref="PatternSubjects"/> or <see cref="ParameterCodes"/>; for <see cref="Comparison.IsOpen"/> a rule's code.</param>
/// <param name="Comparison">How it is compared.</param>
/// <param name="Number">With what, in the subject's unit; 0 where nothing is compared.</param>
public sealed record PatternCondition(string Subject, Comparison Comparison, decimal Number)
{
    private const string FlagPrefix = "flag:";

    /// <summary>Reads a condition as the table writes it.</summary>
    /// <param name="text">Such as <c>ph fell 0.5</c>, <c>level is low</c>, <c>bacteria >= 5</c> or <c>flag:balance open</c>.</param>
    /// <exception cref="FormatException">It is none.</exception>
    public static PatternCondition Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.Split(' ') switch
        {
            [var flag, "open"] when flag.StartsWith(FlagPrefix, StringComparison.Ordinal) => new(flag[FlagPrefix.Length..], Comparison.IsOpen, 0),
            [var subject, "is", "low"] => new(subject, Comparison.IsLow, 0),
            [var subject, "is", "in"] => new(subject, Comparison.IsWithin, 0),
            [var subject, "is", "high"] => new(subject, Comparison.IsHigh, 0),
            [var subject, var sign, var number] when SignOf(sign) is { } comparison && decimal.TryParse(number, NumberStyles.Number, CultureInfo.InvariantCulture, out var value) =>
                new(subject, comparison, value),
            _ => throw new FormatException($"'{text}' is not a condition of the pattern table."),
        };
    }

    private static Comparison? SignOf(string sign) => sign switch
    {
        "fell" => Comparison.Fell,
        "rose" => Comparison.Rose,
        "=" => Comparison.Equal,
        ">=" => Comparison.AtLeast,
        ">" => Comparison.Over,
        "<=" => Comparison.AtMost,
        "<" => Comparison.Under,
        _ => null,
    };
}
