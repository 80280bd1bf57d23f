using System.Text.Json;
using System.Text.Json.Serialization;

namespace ShopFluids.Web.Api.Json;

/// <summary>
/// 4.10 and 4.1 are one number: written without the zeros that only tell how it was typed or which engine kept it, so that the same
/// answer is the same text.
/// </summary>
internal sealed class PlainDecimal : JsonConverter<decimal>
{
    // Dividing by one with the most decimals there are drops the trailing zeros.
    private const decimal One = 1.000000000000000000000000000000000m;

    public override decimal Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => reader.GetDecimal();

    public override void Write(Utf8JsonWriter writer, decimal value, JsonSerializerOptions options) => writer.WriteNumberValue(value / One);
}
