using System.Collections.Concurrent;
using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Metadata;

namespace ShopFluids.Core.Record;

/// <summary>
/// A row as text that is the same on both engines: columns by name, decimals without trailing zeros, instants to the
/// millisecond. The record holds these images, and verification makes them again from the database.
/// </summary>
public static class RowImage
{
    private static readonly ConcurrentDictionary<ITypeBase, IProperty[]> Columns = new();

    /// <summary>Escapes only what JSON asks for: the record is never put into a page as it is, and a document within a row doubles every escape.</summary>
    public static JsonWriterOptions WriterOptions { get; } = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static string KeyOf(EntityEntry entry) =>
        string.Join(':', (entry.Metadata.FindPrimaryKey()?.Properties ?? []).Select(p => Text(p, entry.CurrentValues[p])));

    /// <summary>The whole row.</summary>
    public static void Write(Utf8JsonWriter json, EntityEntry entry, PropertyValues values) => Write(json, entry, values, _ => true, keepsEmpty: false);

    /// <summary>
    /// Only the properties for which <paramref name="include"/> holds, later columns with nothing in them too: otherwise nobody would see that there was nothing before.
    /// </summary>
    public static void WriteBefore(Utf8JsonWriter json, EntityEntry entry, PropertyValues values, Func<IProperty, bool> include) => Write(json, entry, values, include, keepsEmpty: true);

    private static void Write(Utf8JsonWriter json, EntityEntry entry, PropertyValues values, Func<IProperty, bool> include, bool keepsEmpty)
    {
        json.WriteStartObject();
        foreach (var property in Columns.GetOrAdd(entry.Metadata, static type => [.. type.GetProperties().OrderBy(p => p.Name, StringComparer.Ordinal)]))
        {
            if (!include(property))
            {
                continue;
            }

            var text = Text(property, values[property]);
            if (text is null && !keepsEmpty && property.FindAnnotation(LaterColumn.Annotation) is not null)
            {
                continue;
            }

            if (text is null)
            {
                json.WriteNull(property.Name);
            }
            else
            {
                json.WriteString(property.Name, text);
            }
        }

        json.WriteEndObject();
    }

    /// <summary>The whole row as it stands in the entry, as text.</summary>
    public static string Of(EntityEntry entry)
    {
        using var buffer = new MemoryStream();
        using (var json = new Utf8JsonWriter(buffer, WriterOptions))
        {
            Write(json, entry, entry.CurrentValues);
        }

        return System.Text.Encoding.UTF8.GetString(buffer.GetBuffer(), 0, (int)buffer.Length);
    }

    private static string? Text(IProperty property, object? value)
    {
        // JSON columns are compared as the text they are stored as; everything else as its plain value.
        if (value is not null && property.GetValueConverter() is { } converter && converter.ProviderClrType == typeof(string))
        {
            value = converter.ConvertToProvider(value);
        }

        return value switch
        {
            null => null,
            string text => text,
            Guid id => id.ToString("D"),
            bool flag => flag ? "true" : "false",
            decimal number => Plain(number),
            double number => number.ToString("R", CultureInfo.InvariantCulture),
            DateTime instant => instant.ToString("yyyy-MM-ddTHH:mm:ss.fffZ", CultureInfo.InvariantCulture),
            DateOnly day => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            Enum word => Convert.ToInt64(word, CultureInfo.InvariantCulture).ToString(CultureInfo.InvariantCulture),
            IFormattable other => other.ToString(null, CultureInfo.InvariantCulture),
            _ => throw new InvalidOperationException($"{property.DeclaringType.Name}.{property.Name} has no image."),
        };
    }

    /// <summary>Without trailing zeros: PostgreSQL gives back 4.100000 for a stored 4.1.</summary>
    public static string Plain(decimal number) => number.ToString("0.############################", CultureInfo.InvariantCulture);
}
