using ShopFluids.Rules.Facts;

namespace ShopFluids.Rules.Limit;

/// <summary>What a new value does to the flag of one rule on one parameter.</summary>
public enum FlagChange
{
    /// <summary>No flag before, none after.</summary>
    Nothing,

    /// <summary>A flag is raised.</summary>
    Raise,

    /// <summary>The open flag stays.</summary>
    Keep,

    /// <summary>The open flag ends.</summary>
    Clear,

    /// <summary>The open flag ends and another begins: worse, less bad, or on the other side.</summary>
    Replace,
}

/// <summary>Keeps a flag from flickering when a value wanders about a limit.</summary>
public static class Hysteresis
{
    /// <summary>
    /// An open flag ends when the value lies inside the crossed limit by the margin, when it has become worse, or when it is
    /// beyond on the other side. The crossed limit is that of the limits now in force; when they have none on that side any more, the flag
    /// ends with the first value that is less bad.
    /// </summary>
    /// <param name="value">The value, or the fall for <see cref="LimitBasis.DropFromFirstFill"/>.</param>
    /// <param name="judged">What the row says of the value without memory.</param>
    /// <param name="limits">The row.</param>
    /// <param name="openSeverity">The open flag's severity; <see cref="Verdict.NotMeasured"/> when none is open.</param>
    /// <param name="openDirection">The open flag's side, in the row's own sense: a fall beyond its limit is high.</param>
    public static FlagChange Decide(decimal value, Judgement judged, ParameterLimits limits, Verdict openSeverity, Direction openDirection)
    {
        if (openSeverity == Verdict.NotMeasured)
        {
            return judged.IsBeyond ? FlagChange.Raise : FlagChange.Nothing;
        }

        if (judged.IsBeyond && (judged.Direction != openDirection || judged.Verdict > openSeverity))
        {
            return FlagChange.Replace;
        }

        if (judged.Verdict == openSeverity || !ReachesMargin(value, limits, openSeverity, openDirection))
        {
            return FlagChange.Keep;
        }

        return judged.IsBeyond ? FlagChange.Replace : FlagChange.Clear;
    }

    private static bool ReachesMargin(decimal value, ParameterLimits limits, Verdict severity, Direction direction)
    {
        if (LimitRow.LimitFor(limits, severity, direction) is not { } limit)
        {
            return true;
        }

        var clearsAt = LimitRow.ClearsAt(limit, direction, limits.ClearMargin);
        return direction == Direction.Low ? value >= clearsAt : value <= clearsAt;
    }
}
