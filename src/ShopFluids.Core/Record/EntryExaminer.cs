using System.Buffers;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Unicode;
using ShopFluids.Core.Record.Sealing;

namespace ShopFluids.Core.Record;

/// <summary>What can be said of an entry of the record without the others.</summary>
/// <param name="Entry">Null where it can no longer be read.</param>
/// <param name="IsIntact">Its content is a list of changes as the program writes them, and gives its hash.</param>
/// <param name="IsSealed">It carries the seal of the shop's key.</param>
/// <param name="Rows">The rows that it tells of, with the digest of what they were after it; without one they were deleted.</param>
internal readonly record struct ExaminedEntry(StoredEntry? Entry, bool IsIntact, bool IsSealed, IReadOnlyList<(string Row, string? Digest)> Rows);

/// <summary>Examines entries one after the other; several may do so side by side. Keeps its buffers, because a record has a million entries.</summary>
internal sealed class EntryExaminer : IDisposable
{
    private readonly ArrayBufferWriter<byte> _bytes = new();
    private readonly Utf8JsonWriter _json;
    private readonly SealCheck? _seals;

    /// <param name="key">Null where there is none.</param>
    public EntryExaminer(RecordKey? key) => (_json, _seals) = (new(_bytes, RecordEntry.HashedWriting), key?.BeginChecks());

    public static string DigestOf(string image) => DigestOf(Encoding.UTF8.GetBytes(image));

    public ExaminedEntry Examine(StoredEntry? entry)
    {
        if (entry is null)
        {
            return new(null, IsIntact: false, IsSealed: false, []);
        }

        // An entry that was changed is still read for its rows as far as it goes: they are compared with what it says now.
        var rows = RowsOf(entry.Changes);
        return new(entry, rows is not null && GivesItsHash(entry), _seals?.Fits(entry.Hash, entry.Seal) == true, rows ?? []);
    }

    public void Dispose()
    {
        _json.Dispose();
        _seals?.Dispose();
    }

    private static string DigestOf(ReadOnlySpan<byte> image)
    {
        Span<byte> digest = stackalloc byte[SHA256.HashSizeInBytes];
        SHA256.HashData(image, digest);
        return Convert.ToHexStringLower(digest);
    }

    private static void Expect(bool isSo)
    {
        if (!isSo)
        {
            throw new InvalidDataException("These are not the changes of an entry.");
        }
    }

    private bool GivesItsHash(StoredEntry entry)
    {
        // Bytes that are no text the program never wrote, and two different ones would be hashed as one and the same sign.
        if (!Utf8.IsValid(entry.Changes.Span))
        {
            return false;
        }

        _bytes.ResetWrittenCount();
        _json.Reset(_bytes);
        entry.WriteHashed(_json);
        Span<byte> hash = stackalloc byte[SHA256.HashSizeInBytes];
        Span<char> digits = stackalloc char[2 * SHA256.HashSizeInBytes];
        SHA256.HashData(_bytes.WrittenSpan, hash);
        return Convert.TryToHexStringLower(hash, digits, out _) && entry.Hash.AsSpan().SequenceEqual(digits);
    }

    private static List<(string Row, string? Digest)>? RowsOf(ReadOnlyMemory<byte> changes)
    {
        try
        {
            return RowsOf(changes.Span);
        }
        catch (Exception unreadable) when (RowSource.IsUnreadable(unreadable))
        {
            return null;
        }
    }

    private static List<(string Row, string? Digest)> RowsOf(ReadOnlySpan<byte> changes)
    {
        var rows = new List<(string, string?)>();
        var json = new Utf8JsonReader(changes);
        Expect(json.Read() && json.TokenType == JsonTokenType.StartArray);
        while (json.Read() && json.TokenType != JsonTokenType.EndArray)
        {
            Expect(json.TokenType == JsonTokenType.StartObject);
            rows.Add(Row(changes, ref json));
        }

        Expect(!json.Read());
        return rows;
    }

    private static (string Row, string? Digest) Row(ReadOnlySpan<byte> changes, ref Utf8JsonReader json)
    {
        var (entity, key, digest) = (default(string), default(string), default(string));
        while (json.Read() && json.TokenType == JsonTokenType.PropertyName)
        {
            var (isEntity, isKey, isAfter) = (json.ValueTextEquals("entity"u8), json.ValueTextEquals("key"u8), json.ValueTextEquals("after"u8));
            json.Read();
            entity = isEntity ? json.GetString() : entity;
            key = isKey ? json.GetString() : key;
            var start = (int)json.TokenStartIndex;
            json.Skip();
            digest = isAfter ? DigestOf(changes[start..(int)json.BytesConsumed]) : digest;
        }

        Expect(entity is not null && key is not null);
        return ($"{entity} {key}", digest);
    }
}
