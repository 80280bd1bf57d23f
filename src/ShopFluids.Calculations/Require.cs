using System.Globalization;
using System.Runtime.CompilerServices;

namespace ShopFluids.Calculations;

/// <summary>
/// Range checks shared by all formulas. Each refuses NaN and infinity too, and its message names the accepted range,
/// so that no formula below it can return a number that means nothing.
/// </summary>
internal static class Require
{
    // Beyond these no amount can be measured, and a division or product below could overflow although its inputs are numbers.
    private const double Smallest = 1e-9;
    private const double Largest = 1e300;

    public static double Between(double value, double minimum, double maximum, string unit, [CallerArgumentExpression(nameof(value))] string name = "") =>
        value >= minimum && value <= maximum
            ? value
            : throw new ArgumentOutOfRangeException(name, value, Text($"Accepted are {minimum} to {maximum} {unit}."));

    public static double Positive(double value, double maximum, string unit, [CallerArgumentExpression(nameof(value))] string name = "") =>
        value >= Smallest && value <= maximum
            ? value
            : throw new ArgumentOutOfRangeException(name, value, Text($"Accepted are values above 0 up to {maximum} {unit}."));

    public static double Finite(double value, [CallerArgumentExpression(nameof(value))] string name = "") =>
        Math.Abs(value) <= Largest ? value : throw new ArgumentOutOfRangeException(name, value, "Accepted are finite numbers.");

    public static double FiniteNotNegative(double value, [CallerArgumentExpression(nameof(value))] string name = "") =>
        value is >= 0 and <= Largest ? value : throw new ArgumentOutOfRangeException(name, value, "Accepted are finite numbers from 0 upwards.");

    public static double FinitePositive(double value, [CallerArgumentExpression(nameof(value))] string name = "") =>
        value is > 0 and <= Largest ? value : throw new ArgumentOutOfRangeException(name, value, "Accepted are finite numbers above 0.");

    public static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
