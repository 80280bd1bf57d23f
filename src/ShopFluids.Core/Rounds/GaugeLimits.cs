using ShopFluids.Rules.Facts;

namespace ShopFluids.Core.Rounds;

/// <summary>The limits of one parameter as values on its own scale, in its canonical unit; any of them may be missing.</summary>
public sealed record GaugeLimits(
    decimal? ActionLow,
    decimal? WarningLow,
    decimal? TargetLow,
    decimal? TargetHigh,
    decimal? WarningHigh,
    decimal? ActionHigh)
{
    /// <summary>Below it a value needs somebody: the target's edge, or the next limit where there is no target.</summary>
    public decimal? Low => TargetLow ?? WarningLow ?? ActionLow;

    /// <summary>Above it a value needs somebody.</summary>
    public decimal? High => TargetHigh ?? WarningHigh ?? ActionHigh;

    public IEnumerable<decimal> Values => new[] { ActionLow, WarningLow, TargetLow, TargetHigh, WarningHigh, ActionHigh }.OfType<decimal>();

    /// <summary>
    /// The limits on the value itself. Where only a fall from the first fill is limited, the values at which that fall is reached.
    /// Null when nothing can be drawn.
    /// </summary>
    public static GaugeLimits? For(string parameter, IEnumerable<ParameterLimits> limits, decimal? firstFillPh)
    {
        var rows = limits.Where(l => l.Parameter == parameter).ToList();
        if (rows.Find(l => l.Basis == LimitBasis.Value) is { } row)
        {
            var drawn = new GaugeLimits(row.ActionLow, row.WarningLow, row.TargetLow, row.TargetHigh, row.WarningHigh, row.ActionHigh);
            return drawn.Values.Any() ? drawn : null;
        }

        return firstFillPh is { } first && rows.Find(l => l.Basis == LimitBasis.DropFromFirstFill) is { } fall
            ? new(first - fall.ActionHigh, first - fall.WarningHigh, null, null, null, null)
            : null;
    }
}
