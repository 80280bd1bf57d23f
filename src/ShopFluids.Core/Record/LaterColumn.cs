using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace ShopFluids.Core.Record;

/// <summary>
/// A column that came to a table after rows of it were recorded. Empty, it has no place in a row's image: the images of those rows stay what
/// they are in the record. Filled, changed or emptied again, it shows like any other.
/// </summary>
public static class LaterColumn
{
    public const string Annotation = "ShopFluids:LaterColumn";

    /// <summary>Says that the column came later; it must be one that can be empty.</summary>
    public static PropertyBuilder<T> CameLater<T>(this PropertyBuilder<T> property)
    {
        ArgumentNullException.ThrowIfNull(property);
        property.HasAnnotation(Annotation, true);
        return property;
    }
}
