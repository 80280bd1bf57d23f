using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace ShopFluids.Core.Record;

/// <summary>What the hash of an entry is taken of.</summary>
internal readonly ref struct HashedContent
{
    /// <summary>Named, because without a name the writer escapes the same characters byte by byte, which takes longer than to hash them.</summary>
    public static JsonWriterOptions Options { get; } = new() { Encoder = JavaScriptEncoder.Default };

    public required long Sequence { get; init; }

    public required DateTime AtUtc { get; init; }

    public required Guid? ActorId { get; init; }

    public required string ActorName { get; init; }

    public required string Code { get; init; }

    public required string Subject { get; init; }

    /// <summary>In UTF-8, as the database keeps it: a record has a million entries, and each of them would be turned twice.</summary>
    public required ReadOnlySpan<byte> Changes { get; init; }

    public required string PreviousHash { get; init; }

    public required Guid? StationId { get; init; }

    public required string? StationName { get; init; }

    /// <summary>
    /// A JSON array keeps the fields apart, so that no text can move from one into another. Entries from before there were stations, and acts
    /// elsewhere, have two fields less.
    /// </summary>
    public void WriteTo(Utf8JsonWriter json)
    {
        json.WriteStartArray();
        json.WriteNumberValue(Sequence);
        json.WriteStringValue(AtUtc.ToString("yyyy-MM-ddTHH:mm:ss.fffZ", CultureInfo.InvariantCulture));
        Write(json, ActorId);
        json.WriteStringValue(ActorName);
        json.WriteStringValue(Code);
        json.WriteStringValue(Subject);
        json.WriteStringValue(Changes);
        json.WriteStringValue(PreviousHash);
        if (StationId is not null || StationName is not null)
        {
            Write(json, StationId);
            json.WriteStringValue(StationName);
        }

        json.WriteEndArray();
    }

    private static void Write(Utf8JsonWriter json, Guid? id)
    {
        if (id is { } known)
        {
            json.WriteStringValue(known);
        }
        else
        {
            json.WriteNullValue();
        }
    }
}
