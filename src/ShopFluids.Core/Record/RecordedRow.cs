using System.Globalization;
using System.Text.Json;
using Microsoft.EntityFrameworkCore.Metadata;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Record;

/// <summary>Reads back what <see cref="RowImage"/> wrote: the entity as it stood in an entry of the record, without what hangs on it.</summary>
internal static class RecordedRow
{
    /// <exception cref="InvalidDataException">The image is not one of such a row.</exception>
    public static T Read<T>(ShopFluidsDbContext db, JsonElement image)
        where T : class
    {
        var row = (T?)Activator.CreateInstance(typeof(T), nonPublic: true) ?? throw new InvalidDataException($"{typeof(T).Name} cannot be made.");

        // Not tracked: the entry only knows how to reach each column.
        var entry = db.Entry(row);
        foreach (var property in entry.Metadata.GetProperties())
        {
            // A column that came later is not in older images.
            if (image.TryGetProperty(property.Name, out var value))
            {
                entry.Property(property.Name).CurrentValue = value.GetString() is { } text ? ValueOf(property, text) : null;
            }
        }

        return row;
    }

    private static object? ValueOf(IProperty property, string text)
    {
        if (property.GetValueConverter() is { } converter && converter.ProviderClrType == typeof(string))
        {
            return converter.ConvertFromProvider(text);
        }

        var type = Nullable.GetUnderlyingType(property.ClrType) ?? property.ClrType;
        return type == typeof(string) ? text
            : type == typeof(Guid) ? Guid.ParseExact(text, "D")
            : type == typeof(bool) ? text == "true"
            : type == typeof(DateTime) ? DateTime.Parse(text, CultureInfo.InvariantCulture, DateTimeStyles.AdjustToUniversal | DateTimeStyles.AssumeUniversal)
            : type == typeof(DateOnly) ? DateOnly.ParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture)
            : type.IsEnum ? Enum.ToObject(type, long.Parse(text, CultureInfo.InvariantCulture))
            : Convert.ChangeType(text, type, CultureInfo.InvariantCulture);
    }
}
