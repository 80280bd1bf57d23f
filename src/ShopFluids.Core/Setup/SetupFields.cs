using ShopFluids.Core.Database;
using ShopFluids.Core.Machines;

namespace ShopFluids.Core.Setup;

/// <summary>Checks that several set-up forms share; each names its field and the accepted range.</summary>
internal static class SetupFields
{
    public static void Tag(List<FieldError> errors, string field, string? tag)
    {
        if (string.IsNullOrWhiteSpace(tag))
        {
            errors.Add(new(field, FieldProblem.Missing));
        }
        else if (!Tags.IsValid(tag.Trim()))
        {
            errors.Add(new(field, FieldProblem.NotATag, Low: 1, High: Tags.MaximumLength));
        }
    }

    public static void Range(List<FieldError> errors, string field, decimal value, decimal low, decimal high, string? unit = null)
    {
        if (value < low || value > high)
        {
            errors.Add(new(field, FieldProblem.OutOfRange, value, low, high, unit));
        }
    }
}

/// <summary>The id of what was made or changed.</summary>
public sealed record Saved(Guid Id);
