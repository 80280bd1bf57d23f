using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Rules.Limit;

/// <summary>Flags a value beyond its warning or action limit. A value on a limit is inside it unless the row says otherwise.</summary>
public static class LimitRule
{
    /// <summary>The rule's code.</summary>
    public const string Code = "limit";

    /// <summary>The rule's version.</summary>
    public const int Version = 1;

    /// <summary>The flag for a value that is beyond a limit.</summary>
    /// <param name="value">The value judged.</param>
    /// <param name="judged">What the row says of it; beyond.</param>
    /// <param name="limits">The row.</param>
    /// <exception cref="ArgumentException"><paramref name="judged"/> is in range.</exception>
    public static RaisedFlag Raise(decimal value, Judgement judged, ParameterLimits limits)
    {
        var limit = judged.Crossed ?? throw new ArgumentException("A value in range raises no flag.", nameof(judged));
        var numbers = new SortedDictionary<string, decimal>(StringComparer.Ordinal)
        {
            [NumberNames.Value] = value,
            [NumberNames.Limit] = limit,
            [NumberNames.ClearsAt] = LimitRow.ClearsAt(limit, judged.Direction, limits.ClearMargin),
        };
        if (limits.EdgeIsBeyond)
        {
            numbers[NumberNames.EdgeIsBeyond] = 1;
        }

        return new(Code, Version, limits.Parameter, judged.Verdict, judged.Direction, numbers);
    }
}
