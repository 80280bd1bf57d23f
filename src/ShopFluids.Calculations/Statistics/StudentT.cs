namespace ShopFluids.Calculations.Statistics;

/// <summary>
/// Student's t distribution with ν degrees of freedom. The tail is half the incomplete beta function I_x(ν/2, 1/2), x = ν/(ν + t²), by its
/// continued fraction (NIST Digital Library of Mathematical Functions 8.17.22) in the modified Lentz form; about 12 digits.
/// </summary>
public static class StudentT
{
    private const double MostFreedom = 1_000_000;
    private const double Tiny = 1e-300;

    /// <summary>The probability of a value up to t.</summary>
    /// <param name="t">Any finite number.</param>
    /// <param name="degreesOfFreedom">ν, 1 to 1 000 000.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static double Cumulative(double t, double degreesOfFreedom)
    {
        Require.Finite(t);
        Require.Between(degreesOfFreedom, 1, MostFreedom, "degrees of freedom");
        var tail = Tail(Math.Abs(t), degreesOfFreedom);
        return t > 0 ? 1 - tail : tail;
    }

    /// <summary>
    /// t with P(up to t) = p, by Newton's method for ln t on the logarithm of the tail of <see cref="Cumulative"/>.
    /// </summary>
    /// <param name="probability">p, 10⁻¹² to 1 − 10⁻¹².</param>
    /// <param name="degreesOfFreedom">ν, 1 to 1 000 000.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static double Quantile(double probability, double degreesOfFreedom)
    {
        Require.Between(probability, 1e-12, 1 - 1e-12, "probability");
        Require.Between(degreesOfFreedom, 1, MostFreedom, "degrees of freedom");
        var tail = Math.Min(probability, 1 - probability);
        if (tail is 0.5)
        {
            return 0;
        }

        // The normal quantile lies nearer to 0; from there few steps lead out, because ln P(above t) over ln t is nearly a line far out.
        var t = -NormalDistribution.Quantile(tail);
        for (var step = 0; step < 20; step++)
        {
            var above = Tail(t, degreesOfFreedom);
            var change = Math.Log(above / tail) * above / (Density(t, degreesOfFreedom) * t);
            t *= Math.Exp(change);
            if (Math.Abs(change) <= 1e-14)
            {
                break;
            }
        }

        return probability < 0.5 ? -t : t;
    }

    private static double Density(double t, double freedom) =>
        GammaRatio(freedom / 2) / Math.Sqrt(freedom * Math.PI) * Math.Exp(-(freedom + 1) / 2 * LogOnePlus(t / freedom * t));

    // P(above t) for t of 0 or more.
    private static double Tail(double t, double freedom)
    {
        var half = freedom / 2;
        var square = t / freedom * t;
        var (x, rest) = (1 / (1 + square), square / (1 + square));
        if (x == 0)
        {
            return 0;
        }

        // x^(ν/2) (1 − x)^(1/2) / B(ν/2, 1/2)
        var front = Math.Exp(-half * LogOnePlus(square)) * Math.Sqrt(rest) * GammaRatio(half) / Math.Sqrt(Math.PI);
        return x < (half + 1) / (half + 2.5)
            ? front * Fraction(x, half, 0.5) / half / 2
            : 0.5 - (front * Fraction(rest, 0.5, half));
    }

    // DLMF 8.17.22 without its front factor.
    private static double Fraction(double x, double a, double b)
    {
        var (numerator, denominator) = (1.0, 1 / Away(1 - ((a + b) * x / (a + 1))));
        var fraction = denominator;
        for (var m = 1; m <= 10_000; m++)
        {
            var even = m * (b - m) * x / ((a + (2 * m) - 1) * (a + (2 * m)));
            denominator = 1 / Away(1 + (even * denominator));
            numerator = Away(1 + (even / numerator));
            fraction *= denominator * numerator;
            var odd = -(a + m) * (a + b + m) * x / ((a + (2 * m)) * (a + (2 * m) + 1));
            denominator = 1 / Away(1 + (odd * denominator));
            numerator = Away(1 + (odd / numerator));
            var factor = denominator * numerator;
            fraction *= factor;
            if (Math.Abs(factor - 1) < 1e-15)
            {
                break;
            }
        }

        return fraction;
    }

    private static double Away(double value) => Math.Abs(value) < Tiny ? Tiny : value;

    // Γ(a + 1/2)/Γ(a): its asymptotic series (DLMF 5.11.13) after raising a by Γ(a + 1) = a Γ(a).
    private static double GammaRatio(double a)
    {
        var product = 1.0;
        while (a < 64)
        {
            product *= a / (a + 0.5);
            a++;
        }

        var inverse = 1 / a;
        return product * Math.Sqrt(a) * (1 + (inverse * (-0.125 + (inverse * ((1.0 / 128) + (inverse * ((5.0 / 1024) - (inverse * 21 / 32768))))))));
    }

    private static double LogOnePlus(double x)
    {
        var sum = 1 + x;
        return sum is 1 ? x : Math.Log(sum) * x / (sum - 1);
    }
}
