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

    /// <summary>Water and concentrate are more than there is room for: at the water, which may be what the concentrate leaves; at the concentrate where no water was typed.</summary>
    public static FieldError OverTheBrim(string waterField, decimal water, string concentrateField, decimal concentrate, decimal room) =>
        water > 0
            ? new(waterField, FieldProblem.OverTheBrim, water, 0, InTenths(room - concentrate), "L")
            : new(concentrateField, FieldProblem.OverTheBrim, concentrate, 0, InTenths(room), "L");

    // Never more than there is room for.
    private static decimal InTenths(decimal litres) => decimal.Round(decimal.Max(0, litres), 1, MidpointRounding.ToZero);
}
