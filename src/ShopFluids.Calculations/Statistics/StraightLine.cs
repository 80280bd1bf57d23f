namespace ShopFluids.Calculations.Statistics;

/// <summary>
/// A straight line through a series by ordinary least squares, with what is needed to say how sure it is. Formulas: any textbook of
/// regression; checked against the certified values of NIST StRD "Norris".
/// </summary>
public sealed class StraightLine
{
    private const double FarthestTime = 1e9;
    private readonly double _meanTime;
    private readonly double _meanValue;
    private readonly double _spread;

    private StraightLine(int count, double meanTime, double meanValue, double spread, double slope, double squares, double total)
    {
        (Count, _meanTime, _meanValue, _spread, Slope) = (count, meanTime, meanValue, spread, slope);
        ResidualDeviation = Math.Sqrt(squares / (count - 2));
        RSquared = total > 0 ? Math.Max(0, 1 - (squares / total)) : null;
    }

    /// <summary>n, the number of readings; 3 or more.</summary>
    public int Count { get; }

    /// <summary>b₁, in the unit of the values per unit of time.</summary>
    public double Slope { get; }

    /// <summary>b₀, the value of the line at time 0.</summary>
    public double Intercept => _meanValue - (Slope * _meanTime);

    /// <summary>s = √(Σ residual²/(n − 2)), in the unit of the values.</summary>
    public double ResidualDeviation { get; }

    /// <summary>Standard deviation of the slope, s/√S_xx.</summary>
    public double SlopeDeviation => ResidualDeviation / Math.Sqrt(_spread);

    /// <summary>Standard deviation of the intercept, s √(1/n + x̄²/S_xx).</summary>
    public double InterceptDeviation => ResidualDeviation * Math.Sqrt((1.0 / Count) + (_meanTime * _meanTime / _spread));

    /// <summary>R², the share of the variation that the line explains; null where all values are equal.</summary>
    public double? RSquared { get; }

    /// <summary>ν = n − 2.</summary>
    public int DegreesOfFreedom => Count - 2;

    /// <summary>Fits the line.</summary>
    /// <param name="series">Three readings or more, at two times or more.</param>
    /// <exception cref="ArgumentException">Too few readings, or all at one time.</exception>
    public static StraightLine Fit(Series series)
    {
        ArgumentNullException.ThrowIfNull(series);
        Require.Between(series.Count, 3, Sample.MostValues, "readings", nameof(series));
        if (!series.HasTwoTimes)
        {
            throw new ArgumentException("Accepted are readings at two different times or more.", nameof(series));
        }

        var times = series.Times;
        var values = series.Values;
        var (meanTime, meanValue) = (Sample.Mean(times), Sample.Mean(values));
        var (spread, product, total) = (0.0, 0.0, 0.0);
        for (var i = 0; i < times.Length; i++)
        {
            var (dx, dy) = (times[i] - meanTime, values[i] - meanValue);
            spread += dx * dx;
            product += dx * dy;
            total += dy * dy;
        }

        var (slope, squares) = (product / spread, 0.0);
        for (var i = 0; i < times.Length; i++)
        {
            var residual = values[i] - meanValue - (slope * (times[i] - meanTime));
            squares += residual * residual;
        }

        return new(times.Length, meanTime, meanValue, spread, slope, squares, total);
    }

    /// <summary>The line at some time.</summary>
    /// <param name="time">−10⁹ to 10⁹.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="time"/> is out of range.</exception>
    public double At(double time) => _meanValue + (Slope * (Checked(time) - _meanTime));

    /// <summary>Confidence interval for the line itself: ŷ ± t s √(1/n + (x − x̄)²/S_xx).</summary>
    /// <param name="time">−10⁹ to 10⁹.</param>
    /// <param name="confidence">0.5 to 0.9999.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public Interval MeanInterval(double time, double confidence)
    {
        var half = TFactor(confidence) * MeanDeviation(time);
        return new(At(time), At(time) - half, At(time) + half);
    }

    /// <summary>Prediction interval for one new reading: ŷ ± t s √(1 + 1/n + (x − x̄)²/S_xx).</summary>
    /// <param name="time">−10⁹ to 10⁹.</param>
    /// <param name="confidence">0.5 to 0.9999.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public Interval PredictionInterval(double time, double confidence)
    {
        var half = TFactor(confidence) * PredictionDeviation(time);
        return new(At(time), At(time) - half, At(time) + half);
    }

    /// <summary>Confidence interval for the slope.</summary>
    /// <param name="confidence">0.5 to 0.9999.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="confidence"/> is out of range.</exception>
    public Interval SlopeInterval(double confidence)
    {
        var half = TFactor(confidence) * SlopeDeviation;
        return new(Slope, Slope - half, Slope + half);
    }

    internal double PredictionDeviation(double time) =>
        ResidualDeviation * Math.Sqrt(1 + (1.0 / Count) + ((Checked(time) - _meanTime) * (time - _meanTime) / _spread));

    internal double TFactor(double confidence) =>
        StudentT.Quantile((1 + Require.Between(confidence, 0.5, 0.9999, "confidence")) / 2, DegreesOfFreedom);

    private double MeanDeviation(double time) =>
        ResidualDeviation * Math.Sqrt((1.0 / Count) + ((Checked(time) - _meanTime) * (time - _meanTime) / _spread));

    private static double Checked(double time) => Require.Between(time, -FarthestTime, FarthestTime, "in the unit of time");
}
