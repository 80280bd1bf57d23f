using ShopFluids.Rules.Facts;

namespace ShopFluids.Rules.Shipped;

/// <summary>
/// The limits of the test plan for water-mixed cooling lubricants in DGUV Regel 109-003 (May 2009, updated March 2011), Annex 3. All of
/// them are "over": a value on the limit is inside.
/// </summary>
public static class DguvAnnex3
{
    private const string Source = "DGUV Regel 109-003 (2009/2011), Annex 3";

    /// <summary>No. 2: pH more than 0.5 under the first fill: what the maker recommends; more than 1.0: exchange the fluid, clean the circuit.</summary>
    public static ShippedLimit PhDrop { get; } = new(
        new(ParameterCodes.Ph, LimitBasis.DropFromFirstFill, null, null, null, null, WarningHigh: 0.5m, ActionHigh: 1.0m, EdgeIsBeyond: false, ClearMargin: 0.1m),
        Source + ", no. 2");

    /// <summary>No. 5: nitrite over 20 mg/L: exchange, partial exchange or inhibitor (the limit of TRGS 611).</summary>
    public static ShippedLimit Nitrite { get; } = new(
        new(ParameterCodes.Nitrite, LimitBasis.Value, null, null, null, null, WarningHigh: null, ActionHigh: 20m, EdgeIsBeyond: false, ClearMargin: 1m),
        Source + ", no. 5; TRGS 611 (May 2007)");

    /// <summary>No. 6: nitrate over 50 mg/L in make-up water that is not from the public supply. It is measured in the water, not in the mix.</summary>
    public static ShippedLimit MakeUpNitrate { get; } = new(
        new(ParameterCodes.Nitrate, LimitBasis.Value, null, null, null, null, WarningHigh: null, ActionHigh: 50m, EdgeIsBeyond: false, ClearMargin: 1m),
        Source + ", no. 6");

    /// <summary>All three.</summary>
    public static IReadOnlyList<ShippedLimit> All { get; } = [PhDrop, Nitrite, MakeUpNitrate];
}
