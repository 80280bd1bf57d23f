using ShopFluids.Calculations.Statistics;

namespace ShopFluids.Calculations.Charts;

/// <summary>Limits of the chart of individual readings and their moving ranges, in the unit of the readings.</summary>
/// <param name="Mean">The centre line, −10¹² to 10¹².</param>
/// <param name="MeanMovingRange">Mean of the differences, all taken positive, between neighbours; 0 to 2 × 10¹².</param>
/// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
public sealed record IndividualsLimits(double Mean, double MeanMovingRange)
{
    /// <summary>d₂ for ranges of two.</summary>
    public const double RangeToDeviation = 1.128;

    /// <summary>D₄ for ranges of two.</summary>
    public const double RangeLimitFactor = 3.267;

    /// <summary>The centre line.</summary>
    public double Mean { get; } = Require.Between(Mean, -Sample.Largest, Sample.Largest, "in any unit");

    /// <summary>Mean of the differences between neighbours.</summary>
    public double MeanMovingRange { get; } = Require.Between(MeanMovingRange, 0, 2 * Sample.Largest, "in any unit");

    /// <summary>σ = mean moving range / 1.128.</summary>
    public double Sigma => MeanMovingRange / RangeToDeviation;

    /// <summary>Mean − 3σ.</summary>
    public double LowerAction => Mean - (3 * Sigma);

    /// <summary>Mean + 3σ.</summary>
    public double UpperAction => Mean + (3 * Sigma);

    /// <summary>Mean − 2σ.</summary>
    public double LowerWarning => Mean - (2 * Sigma);

    /// <summary>Mean + 2σ.</summary>
    public double UpperWarning => Mean + (2 * Sigma);

    /// <summary>3.267 × mean moving range; the lower limit of a moving range is 0.</summary>
    public double UpperMovingRange => RangeLimitFactor * MeanMovingRange;

    /// <summary>Whether a reading lies beyond an action limit; on the limit it does not.</summary>
    /// <param name="value">Any finite number.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="value"/> is not finite.</exception>
    public bool IsBeyondAction(double value) => Require.Finite(value) < LowerAction || value > UpperAction;

    /// <summary>Whether the change from one reading to the next is larger than chance explains; on the limit it is not.</summary>
    /// <param name="before">Any finite number.</param>
    /// <param name="after">Any finite number.</param>
    /// <exception cref="ArgumentOutOfRangeException">A reading is not finite.</exception>
    public bool IsStep(double before, double after) => Math.Abs(Require.Finite(after) - Require.Finite(before)) > UpperMovingRange;
}

/// <summary>
/// The chart of individuals and moving ranges: NIST/SEMATECH e-Handbook 6.3.2.2. Warning and action limits at two and three sigma are the
/// words of ISO 7870.
/// </summary>
public static class IndividualsChart
{
    /// <summary>Limits from readings in order of time.</summary>
    /// <param name="values">2 to 100 000, −10¹² to 10¹².</param>
    /// <exception cref="ArgumentOutOfRangeException">Too few, too many, or out of range.</exception>
    public static IndividualsLimits Limits(IReadOnlyList<double> values)
    {
        var checkedValues = Sample.Checked(values, 2);
        var ranges = 0.0;
        for (var i = 1; i < checkedValues.Length; i++)
        {
            ranges += Math.Abs(checkedValues[i] - checkedValues[i - 1]);
        }

        return new(Sample.Mean(checkedValues), ranges / (checkedValues.Length - 1));
    }
}
