using ShopFluids.Core.Database;

namespace ShopFluids.Core.Charges;

internal static class AmountChecks
{
    /// <summary>No sump of a shop holds more; a larger number is a slip of the finger. Common practice, no source.</summary>
    public const decimal MaximumLitres = 100_000m;

    public static void Check(List<FieldError> errors, string field, decimal litres)
    {
        if (litres is < 0 or > MaximumLitres)
        {
            errors.Add(new(field, FieldProblem.OutOfRange, litres, 0, MaximumLitres, "L"));
        }
    }
}
