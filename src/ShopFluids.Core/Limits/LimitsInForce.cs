using ShopFluids.Rules.Facts;

namespace ShopFluids.Core.Limits;

/// <summary>What judges a sump at one instant. A sump's own set speaks for the parameters it names; its fluid's for the others.</summary>
public sealed class LimitsInForce
{
    private readonly HashSet<string> _own;

    internal LimitsInForce(LimitSet? ofSump, LimitSet? ofFluid)
    {
        OfSump = ofSump;
        OfFluid = ofFluid;
        _own = [.. (ofSump?.Limits ?? []).Select(l => l.Parameter)];
        Limits = [.. ofSump?.Limits ?? [], .. (ofFluid?.Limits ?? []).Where(l => !_own.Contains(l.Parameter))];
    }

    public LimitSet? OfSump { get; }

    public LimitSet? OfFluid { get; }

    public IReadOnlyList<ParameterLimits> Limits { get; }

    /// <summary>The set that judges a parameter; null when none does.</summary>
    public LimitSet? SetOf(string parameter) =>
        _own.Contains(parameter) ? OfSump : OfFluid?.Limits.Any(l => l.Parameter == parameter) == true ? OfFluid : null;

    /// <summary>The limits on the value itself, for gauges and charts; null when there are none.</summary>
    public ParameterLimits? ValueLimits(string parameter) => Limits.FirstOrDefault(l => l.Parameter == parameter && l.Basis == LimitBasis.Value);
}
