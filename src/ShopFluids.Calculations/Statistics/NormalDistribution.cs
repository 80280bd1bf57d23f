namespace ShopFluids.Calculations.Statistics;

/// <summary>The standard normal distribution: mean 0, standard deviation 1.</summary>
public static class NormalDistribution
{
    /// <summary>
    /// Φ(z), the probability of a value up to z. Hart's algorithm 5666 (Computer Approximations, 1968) as printed by G. West, "Better
    /// approximations to cumulative normal functions", Wilmott (2005); about 14 digits (coefficients from memory, checked by an oracle).
    /// </summary>
    /// <param name="z">Any finite number.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="z"/> is not finite.</exception>
    public static double Cumulative(double z)
    {
        var size = Math.Abs(Require.Finite(z));
        var tail = Math.Exp(-size * size / 2) * Ratio(size);
        return z > 0 ? 1 - tail : tail;
    }

    /// <summary>
    /// z with Φ(z) = p. M. J. Wichura, "Algorithm AS 241: the percentage points of the normal distribution", Applied Statistics 37 (1988)
    /// 477, PPND16: about 16 digits (coefficients from memory, checked by an oracle).
    /// </summary>
    /// <param name="probability">p, 10⁻³⁰⁰ to 1 − 10⁻¹⁵.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="probability"/> is out of range.</exception>
    public static double Quantile(double probability)
    {
        Require.Between(probability, 1e-300, 1 - 1e-15, "probability");
        var q = probability - 0.5;
        if (Math.Abs(q) <= 0.425)
        {
            var near = 0.180625 - (q * q);
            return q * Polynomial(near, CentreOver) / Polynomial(near, CentreUnder);
        }

        var r = Math.Sqrt(-Math.Log(q < 0 ? probability : 1 - probability));
        var z = r <= 5
            ? Polynomial(r - 1.6, MiddleOver) / Polynomial(r - 1.6, MiddleUnder)
            : Polynomial(r - 5, TailOver) / Polynomial(r - 5, TailUnder);
        return q < 0 ? -z : z;
    }

    // Tail over e^(−z²/2). The continued fraction is Laplace's, taken further and used from 3 instead of 7.07 on, so that the tail keeps its relative digits.
    private static double Ratio(double size)
    {
        if (size < 3)
        {
            return Polynomial(size, CumulativeOver) / Polynomial(size, CumulativeUnder);
        }

        var fraction = size;
        for (var k = 40; k >= 1; k--)
        {
            fraction = size + (k / fraction);
        }

        return 1 / (fraction * Math.Sqrt(2 * Math.PI));
    }

    // Constant term first.
    private static double Polynomial(double x, ReadOnlySpan<double> coefficients)
    {
        var sum = 0.0;
        for (var i = coefficients.Length - 1; i >= 0; i--)
        {
            sum = (sum * x) + coefficients[i];
        }

        return sum;
    }

    private static ReadOnlySpan<double> CumulativeOver =>
        [220.206867912376, 221.213596169931, 112.079291497871, 33.912866078383, 6.37396220353165, 0.700383064443688, 3.52624965998911e-2];

    private static ReadOnlySpan<double> CumulativeUnder =>
        [440.413735824752, 793.826512519948, 637.333633378831, 296.564248779674, 86.7807322029461, 16.064177579207, 1.75566716318264, 8.83883476483184e-2];

    private static ReadOnlySpan<double> CentreOver =>
    [
        3.3871328727963666080, 1.3314166789178437745e2, 1.9715909503065514427e3, 1.3731693765509461125e4,
        4.5921953931549871457e4, 6.7265770927008700853e4, 3.3430575583588128105e4, 2.5090809287301226727e3,
    ];

    private static ReadOnlySpan<double> CentreUnder =>
    [
        1, 4.2313330701600911252e1, 6.8718700749205790830e2, 5.3941960214247511077e3, 2.1213794301586595867e4,
        3.9307895800092710610e4, 2.8729085735721942674e4, 5.2264952788528545610e3,
    ];

    private static ReadOnlySpan<double> MiddleOver =>
    [
        1.42343711074968357734, 4.63033784615654529590, 5.76949722146069140550, 3.64784832476320460504,
        1.27045825245236838258, 2.41780725177450611770e-1, 2.27238449892691845833e-2, 7.74545014278341407640e-4,
    ];

    private static ReadOnlySpan<double> MiddleUnder =>
    [
        1, 2.05319162663775882187, 1.67638483018380384940, 6.89767334985100004550e-1, 1.48103976427480074590e-1,
        1.51986665636164571966e-2, 5.47593808499534494600e-4, 1.05075007164441684324e-9,
    ];

    private static ReadOnlySpan<double> TailOver =>
    [
        6.65790464350110377720, 5.46378491116411436990, 1.78482653991729133580, 2.96560571828504891230e-1,
        2.65321895265761230930e-2, 1.24266094738807843860e-3, 2.71155556874348757815e-5, 2.01033439929228813265e-7,
    ];

    private static ReadOnlySpan<double> TailUnder =>
    [
        1, 5.99832206555887937690e-1, 1.36929880922735805310e-1, 1.48753612908506148525e-2, 7.86869131145613259100e-4,
        1.84631831751005468180e-5, 1.42151175831644588870e-7, 2.04426310338993978564e-15,
    ];
}
