namespace ShopFluids.Calculations.Bacteria;

/// <summary>How a bacteria count is judged.</summary>
public enum BacteriaBand
{
    /// <summary>Keep up the routine checks.</summary>
    Good = 0,

    /// <summary>Review and adjust.</summary>
    Reasonable = 1,

    /// <summary>Act at once.</summary>
    Poor = 2,
}

/// <summary>Bands of bacteria counts in water-mixed fluid; a lower bound belongs to its band. A setting, because guidance has changed.</summary>
/// <param name="ReasonableFromCfu">Where "reasonable" begins, 1 to 10¹² CFU/mL.</param>
/// <param name="PoorFromCfu">Where "poor" begins, from there to 10¹² CFU/mL.</param>
/// <exception cref="ArgumentOutOfRangeException">A bound is out of its range.</exception>
public sealed record BacteriaBands(double ReasonableFromCfu, double PoorFromCfu)
{
    /// <summary>HSE's current page: below 10⁴ good, 10⁴ to below 10⁶ reasonable, from 10⁶ poor (read).</summary>
    public static BacteriaBands HseCurrent { get; } = new(1e4, 1e6);

    /// <summary>HSE's page of 2006 to 2012: reasonable from 10³ already (read).</summary>
    public static BacteriaBands Hse2006 { get; } = new(1e3, 1e6);

    /// <summary>Where "reasonable" begins, CFU/mL.</summary>
    public double ReasonableFromCfu { get; } = Require.Between(ReasonableFromCfu, 1, BacteriaScale.MaximumCfu, "CFU/mL");

    /// <summary>Where "poor" begins, CFU/mL.</summary>
    public double PoorFromCfu { get; } = Require.Between(PoorFromCfu, ReasonableFromCfu, BacteriaScale.MaximumCfu, "CFU/mL (above the band before)");

    /// <summary>The band of a count.</summary>
    /// <param name="cfuPerMillilitre">0 to 10¹² CFU/mL; 0 is a slide without growth.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="cfuPerMillilitre"/> is out of its range.</exception>
    public BacteriaBand Of(double cfuPerMillilitre) =>
        Require.Between(cfuPerMillilitre, 0, BacteriaScale.MaximumCfu, "CFU/mL") >= PoorFromCfu ? BacteriaBand.Poor
        : cfuPerMillilitre >= ReasonableFromCfu ? BacteriaBand.Reasonable
        : BacteriaBand.Good;
}
