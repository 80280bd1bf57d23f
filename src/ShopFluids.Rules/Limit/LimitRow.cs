using ShopFluids.Rules.Facts;

namespace ShopFluids.Rules.Limit;

/// <summary>How a row of limits is read: which value is beyond which limit, and which value is far enough inside to clear.</summary>
public static class LimitRow
{
    /// <summary>Judges a value; null when the row has no limit that judges.</summary>
    /// <param name="value">The value, or the fall for <see cref="LimitBasis.DropFromFirstFill"/>.</param>
    /// <param name="limits">The row. Of a drop row only the upper limits are read: a rise is not a fall.</param>
    public static Judgement? Judge(decimal value, ParameterLimits limits)
    {
        var lows = limits.Basis == LimitBasis.Value;
        if (limits.WarningHigh is null && limits.ActionHigh is null && !(lows && (limits.WarningLow ?? limits.ActionLow) is not null))
        {
            return null;
        }

        return lows && IsUnder(value, limits.ActionLow, limits.EdgeIsBeyond) ? new(Verdict.Action, Direction.Low, limits.ActionLow)
            : IsOver(value, limits.ActionHigh, limits.EdgeIsBeyond) ? new(Verdict.Action, Direction.High, limits.ActionHigh)
            : lows && IsUnder(value, limits.WarningLow, limits.EdgeIsBeyond) ? new(Verdict.Warning, Direction.Low, limits.WarningLow)
            : IsOver(value, limits.WarningHigh, limits.EdgeIsBeyond) ? new(Verdict.Warning, Direction.High, limits.WarningHigh)
            : Judgement.InRange;
    }

    /// <summary>The limit of a row for a severity and a side; null where the row has none.</summary>
    public static decimal? LimitFor(ParameterLimits limits, Verdict severity, Direction direction) => (severity, direction) switch
    {
        (Verdict.Warning, Direction.Low) => limits.WarningLow,
        (Verdict.Warning, Direction.High) => limits.WarningHigh,
        (Verdict.Action, Direction.Low) => limits.ActionLow,
        (Verdict.Action, Direction.High) => limits.ActionHigh,
        _ => null,
    };

    /// <summary>The value at which a flag on a limit clears: the margin inside it.</summary>
    public static decimal ClearsAt(decimal limit, Direction direction, decimal margin) =>
        direction == Direction.Low ? limit + margin : limit - margin;

    private static bool IsUnder(decimal value, decimal? limit, bool edgeIsBeyond) =>
        limit is { } low && (value < low || (edgeIsBeyond && value == low));

    private static bool IsOver(decimal value, decimal? limit, bool edgeIsBeyond) =>
        limit is { } high && (value > high || (edgeIsBeyond && value == high));
}
