namespace ShopFluids.Rules.Limit;

/// <summary>One value held against one row of limits, without memory.</summary>
/// <param name="Verdict">In range, warning or action.</param>
/// <param name="Direction">The side on which it lies beyond; none in range.</param>
/// <param name="Crossed">The limit crossed; null in range.</param>
public sealed record Judgement(Verdict Verdict, Direction Direction, decimal? Crossed)
{
    /// <summary>A value inside its limits.</summary>
    public static Judgement InRange { get; } = new(Verdict.InRange, Direction.None, null);

    /// <summary>Whether a warning or an action limit is crossed.</summary>
    public bool IsBeyond => Verdict >= Verdict.Warning;
}
