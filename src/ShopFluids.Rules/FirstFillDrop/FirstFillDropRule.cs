using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Limit;

namespace ShopFluids.Rules.FirstFillDrop;

/// <summary>
/// Flags a pH that has fallen too far from the first fill's (DGUV Regel 109-003, Annex 3, no. 2: over 0.5 the maker's measures, over 1.0
/// exchange and clean). Decimal throughout, so that 9.2 - 8.7 is exactly 0.5 and inside.
/// </summary>
public static class FirstFillDropRule
{
    /// <summary>The rule's code.</summary>
    public const string Code = "first-fill-drop";

    /// <summary>The rule's version.</summary>
    public const int Version = 1;

    /// <summary>The fall; negative when the value has risen.</summary>
    public static decimal DropOf(decimal firstFill, decimal value) => firstFill - value;

    /// <summary>The flag for a fall that is beyond a limit. Its side is low: the value is under what it was.</summary>
    /// <param name="firstFill">The value from which the fall is reckoned.</param>
    /// <param name="value">The value measured.</param>
    /// <param name="judged">What the row says of the fall; beyond.</param>
    /// <param name="limits">The row.</param>
    /// <exception cref="ArgumentException"><paramref name="judged"/> is in range.</exception>
    public static RaisedFlag Raise(decimal firstFill, decimal value, Judgement judged, ParameterLimits limits)
    {
        var limit = judged.Crossed ?? throw new ArgumentException("A fall in range raises no flag.", nameof(judged));
        var numbers = new SortedDictionary<string, decimal>(StringComparer.Ordinal)
        {
            [NumberNames.Value] = value,
            [NumberNames.FirstFill] = firstFill,
            [NumberNames.Drop] = DropOf(firstFill, value),
            [NumberNames.Limit] = limit,
            [NumberNames.ClearsAt] = firstFill - LimitRow.ClearsAt(limit, Direction.High, limits.ClearMargin),
        };
        if (limits.EdgeIsBeyond)
        {
            numbers[NumberNames.EdgeIsBeyond] = 1;
        }

        return new(Code, Version, limits.Parameter, judged.Verdict, Direction.Low, numbers);
    }
}
