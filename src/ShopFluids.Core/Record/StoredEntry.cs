using System.Globalization;
using System.Text.Json;

namespace ShopFluids.Core.Record;

/// <summary>An entry of the record as the database holds it. Its changes stay the UTF-8 that the hash is taken of: a record has a million of them.</summary>
internal sealed record StoredEntry(
    long Sequence,
    DateTime AtUtc,
    Guid? ActorId,
    string ActorName,
    Guid? StationId,
    string? StationName,
    string Code,
    string Subject,
    ReadOnlyMemory<byte> Changes,
    string PreviousHash,
    string Hash,
    string? Seal)
{
    /// <summary>
    /// Writes what the hash is taken of. A JSON array keeps the fields apart, so that no text can move from one into another. Entries from
    /// before there were stations, and acts elsewhere, have two fields less.
    /// </summary>
    public void WriteHashed(Utf8JsonWriter json)
    {
        json.WriteStartArray();
        json.WriteNumberValue(Sequence);
        json.WriteStringValue(AtUtc.ToString("yyyy-MM-ddTHH:mm:ss.fffZ", CultureInfo.InvariantCulture));
        Write(json, ActorId);
        json.WriteStringValue(ActorName);
        json.WriteStringValue(Code);
        json.WriteStringValue(Subject);
        json.WriteStringValue(Changes.Span);
        json.WriteStringValue(PreviousHash);
        if (StationId is not null || StationName is not null)
        {
            Write(json, StationId);
            json.WriteStringValue(StationName);
        }

        json.WriteEndArray();
        json.Flush();
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
