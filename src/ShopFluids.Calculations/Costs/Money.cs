using System.Runtime.CompilerServices;

namespace ShopFluids.Calculations.Costs;

/// <summary>Ranges of sums and of amounts that are multiplied with them. Within them a decimal can neither overflow nor lose its cents.</summary>
internal static class Money
{
    public const decimal Most = 1_000_000_000;

    public static decimal Amount(decimal value, decimal most, string unit, [CallerArgumentExpression(nameof(value))] string name = "") =>
        value >= 0 && value <= most
            ? value
            : throw new ArgumentOutOfRangeException(name, value, Require.Text($"Accepted are 0 to {most} {unit}."));

    public static decimal Sum(decimal value, [CallerArgumentExpression(nameof(value))] string name = "") => Amount(value, Most, "of the currency", name);
}
