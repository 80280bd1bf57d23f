namespace ShopFluids.Calculations.Balances;

/// <summary>What a blend of two waters can do.</summary>
public enum WaterBlendCase
{
    /// <summary>The hard water alone is good enough.</summary>
    HardWaterWillDo = 0,

    /// <summary>A blend keeps it under the limit.</summary>
    Blend = 1,

    /// <summary>Even the soft water alone is too hard.</summary>
    NotReachable = 2,
}

/// <summary>A blend of a hard water and a soft one (softened or reverse-osmosis).</summary>
/// <param name="Case">What the blend can do.</param>
/// <param name="SoftShare">Least share of soft water that is needed, 0 to 1; 1 where even that is not enough.</param>
/// <param name="BlendMgPerLitre">What the blend holds, mg/L.</param>
public sealed record WaterBlend(WaterBlendCase Case, double SoftShare, double BlendMgPerLitre)
{
    /// <summary>The least soft water that keeps the blend at or under what is wanted: share = (hard − wanted)/(hard − soft). Mass balance.</summary>
    /// <param name="hardMgPerLitre">Hardness or dissolved solids of the hard water, 0 to 1 000 000 mg/L.</param>
    /// <param name="softMgPerLitre">Of the soft water, 0 to <paramref name="hardMgPerLitre"/>.</param>
    /// <param name="wantedMgPerLitre">The most the blend may hold, 0 to 1 000 000 mg/L, such as <see cref="Buildup.HardestMakeUpMgPerLitre"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static WaterBlend Of(double hardMgPerLitre, double softMgPerLitre, double wantedMgPerLitre)
    {
        Require.Between(hardMgPerLitre, 0, Amounts.MostMgPerLitre, "mg/L");
        Require.Between(softMgPerLitre, 0, hardMgPerLitre, "mg/L (the hard water)");
        Require.Between(wantedMgPerLitre, 0, Amounts.MostMgPerLitre, "mg/L");
        if (hardMgPerLitre <= wantedMgPerLitre)
        {
            return new(WaterBlendCase.HardWaterWillDo, 0, hardMgPerLitre);
        }

        return softMgPerLitre > wantedMgPerLitre
            ? new(WaterBlendCase.NotReachable, 1, softMgPerLitre)
            : new(WaterBlendCase.Blend, (hardMgPerLitre - wantedMgPerLitre) / (hardMgPerLitre - softMgPerLitre), wantedMgPerLitre);
    }
}
