namespace ShopFluids.Rules.Shipped;

/// <summary>The limits that a new fluid or sump starts with.</summary>
public static class ShippedLimits
{
    /// <summary>A whole set for a water-mixed fluid. Level is not in it: its limits belong to the sump, see <see cref="CommonPractice.Level"/>. Nor is nitrate: it is a limit of the make-up water, see <see cref="DguvAnnex3.MakeUpNitrate"/>.</summary>
    /// <param name="targetLow">The lower end of the concentration band, above 0, % v/v.</param>
    /// <param name="targetHigh">The upper end, % v/v.</param>
    /// <param name="bacteria">Which of HSE's bands.</param>
    /// <exception cref="ArgumentOutOfRangeException">The band is not one.</exception>
    public static IReadOnlyList<ShippedLimit> Default(decimal targetLow, decimal targetHigh, BacteriaBands bacteria = BacteriaBands.Current) =>
    [
        CommonPractice.Concentration(targetLow, targetHigh),
        CommonPractice.Ph,
        DguvAnnex3.PhDrop,
        DguvAnnex3.Nitrite,
        HseBacteria.For(bacteria),
        CommonPractice.TrampOilCover,
        CommonPractice.Odour,
        CommonPractice.Foam,
        CommonPractice.Fines,
        CommonPractice.Temperature,
    ];
}
