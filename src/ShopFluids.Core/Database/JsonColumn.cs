using System.Runtime.CompilerServices;
using System.Text.Json;
using System.Text.Json.Serialization;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Storage.ValueConversion;
using ShopFluids.Core.Record;

namespace ShopFluids.Core.Database;

/// <summary>
/// Small documents that are read and written whole, kept as text that is the same on both engines. They are immutable: another
/// document is another object, so a change is seen without writing both out.
/// </summary>
public static class JsonColumn
{
    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web) { Encoder = RowImage.WriterOptions.Encoder, Converters = { new PlainDecimals() } };

    public static ValueConverter Converter<T>()
        where T : class =>
        new ValueConverter<T, string>(value => Write(value), text => Read<T>(text));

    public static ValueComparer Comparer<T>()
        where T : class =>
        new ValueComparer<T>(
            (a, b) => ReferenceEquals(a, b),
            value => RuntimeHelpers.GetHashCode(value),
            value => value);

    public static string Write<T>(T value) => JsonSerializer.Serialize(value, Options);

    public static T Read<T>(string text)
        where T : class =>
        JsonSerializer.Deserialize<T>(text, Options) ?? throw new InvalidDataException($"A stored {typeof(T).Name} is empty.");

    /// <summary>8.60 and 8.6 are one number and one text.</summary>
    private sealed class PlainDecimals : JsonConverter<decimal>
    {
        public override decimal Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => reader.GetDecimal();

        public override void Write(Utf8JsonWriter writer, decimal value, JsonSerializerOptions options) => writer.WriteRawValue(RowImage.Plain(value));
    }
}
