namespace ShopFluids.Rules.Facts;

/// <summary>What a limit is held against.</summary>
public enum LimitBasis : short
{
    /// <summary>The value itself.</summary>
    Value = 0,

    /// <summary>How far the value has fallen since the first fill of the charge (pH in DGUV Regel 109-003, Annex 3).</summary>
    DropFromFirstFill = 1,
}

/// <summary>Target, warning and action limits of one parameter (words of ISO 7870), in its canonical unit. A missing limit does not judge.</summary>
/// <param name="EdgeIsBeyond">False: a value on a limit is inside it (pH drop over 0.5). True: a value on a limit is beyond it (bacteria from 10^4).</param>
/// <param name="ClearMargin">How far inside a limit a later value must lie to clear a flag (hysteresis); 0 or more.</param>
public sealed record ParameterLimits(
    string Parameter,
    LimitBasis Basis,
    decimal? ActionLow,
    decimal? WarningLow,
    decimal? TargetLow,
    decimal? TargetHigh,
    decimal? WarningHigh,
    decimal? ActionHigh,
    bool EdgeIsBeyond,
    decimal ClearMargin);
