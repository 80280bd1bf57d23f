using System.Text.Json;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Storage.ValueConversion;

namespace ShopFluids.Core.Database;

/// <summary>Small documents that are read and written whole, kept as text that is the same on both engines.</summary>
public static class JsonColumn
{
    public static ValueConverter<T, string> Converter<T>()
        where T : class =>
        new(value => Write(value), text => Read<T>(text));

    public static ValueComparer<T> Comparer<T>()
        where T : class =>
        new(
            (a, b) => ReferenceEquals(a, b) || (a != null && b != null && Write(a) == Write(b)),
            value => Write(value).GetHashCode(StringComparison.Ordinal),
            value => value);

    public static string Write<T>(T value) => JsonSerializer.Serialize(value, JsonSerializerOptions.Web);

    public static T Read<T>(string text)
        where T : class =>
        JsonSerializer.Deserialize<T>(text, JsonSerializerOptions.Web) ?? throw new InvalidDataException($"A stored {typeof(T).Name} is empty.");
}
