using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using ShopFluids.Core.Photos;
using ShopFluids.Core.Record;
using ShopFluids.Core.Record.Sealing;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;

namespace ShopFluids.Core.Tests.Record.Tampering;

/// <summary>What was done to a database, and what verification must name first.</summary>
/// <param name="NeedsKey">Done so well that nothing but the seal tells.</param>
/// <param name="NeedsFingerprint">Done so well that nothing within the database tells.</param>
internal sealed record Tampering(string What, string FirstBad, bool NeedsKey = false, bool NeedsFingerprint = false);

/// <summary>Somebody who owns the database, knows how the record is made, and has no key. One seed always does the same.</summary>
internal sealed class Forger(RawSql sql, DatabaseEngine engine, IReadOnlyList<ForgedEntry> record, IReadOnlyList<RecordedRowAt> rows, int seed)
{
    private static readonly JsonSerializerOptions AsTheProgram = new() { Encoder = RowImage.WriterOptions.Encoder };
    private static readonly RecordKey OwnKey = RecordKey.Make(RecordFingerprint.OfNothing);

    private readonly Random _random = new(seed);
    private readonly ForgedRecord _forged = new(sql);

    private IReadOnlyList<Func<Task<Tampering>>> Ways =>
    [
        EditFieldAsync, EditAndChainAsync, RemoveAsync, RemoveAndChainAsync, InsertAndChainAsync, SwapAsync, SwapAndChainAsync, CutOffAsync,
        ChangeRowAsync, DeleteRowAsync, InsertRowAsync, ChangeRowAndRecordAsync, DeleteRowAndRecordAsync, InsertRowAndRecordAsync,
    ];

    /// <summary>One of the ways, by the seed.</summary>
    public Task<Tampering> TamperAsync() => Ways[seed % Ways.Count]();

    private static string Entry(long sequence) => string.Create(CultureInfo.InvariantCulture, $"RecordEntry {sequence}");

    // The bytes of a photo lie beside its row, and their hash would tell.
    private static bool IsNoPhoto(IEntityType type) => type.ClrType != typeof(Photo);

    private static bool HasMoreThanAKey(IEntityType type) => type.GetProperties().Any(p => !p.IsPrimaryKey());

    private static string Other(string text) => text.Length == 0 ? "x" : text[..^1] + (text[^1] == 'X' ? 'Y' : 'X');

    private static IEnumerable<JsonNode?> ChangesOf(ForgedEntry entry, RecordedRowAt row) =>
        JsonNode.Parse(entry.Changes)!.AsArray().Where(c => $"{c!["entity"]} {c["key"]}" == row.Name);

    private ForgedEntry At(long sequence) => record[(int)sequence - 1];

    private ForgedEntry? Before(long sequence) => sequence == 1 ? null : At(sequence - 1);

    private IEnumerable<ForgedEntry> After(long sequence) => record.Skip((int)sequence);

    // A number of an entry, the last so many left out.
    private long Any(int leaveOut = 0) => _random.Next(1, record.Count + 1 - leaveOut);

    private RecordedRowAt AnyRow(Func<IEntityType, bool>? where = null)
    {
        // By type first: else the many tasks and flags leave no turn for the others.
        var types = rows.Select(r => r.Type).Distinct().Where(t => where is null || where(t)).ToList();
        var type = types[_random.Next(types.Count)];
        var ofType = rows.Where(r => r.Type == type).ToList();
        return ofType[_random.Next(ofType.Count)];
    }

    private string Hex() => Convert.ToHexStringLower(Bytes(32));

    private Guid Id() => new(Bytes(16));

    private byte[] Bytes(int count)
    {
        var bytes = new byte[count];
        _random.NextBytes(bytes);
        return bytes;
    }

    // What a forger has to put where a seal belongs.
    private ForgedEntry Sealed(ForgedEntry entry, ForgedEntry? before) => entry with
    {
        Seal = _random.Next(4) switch { 0 => null, 1 => Hex(), 2 => OwnKey.Seal(entry.Behind(before).Hash), _ => At(Any()).Seal },
    };

    private async Task<Tampering> EditFieldAsync()
    {
        var entry = At(Any());
        var (column, value) = _random.Next(11) switch
        {
            0 => (nameof(RecordEntry.AtUtc), entry.AtUtc.AddMilliseconds(_random.Next(1, 100_000))),
            1 => (nameof(RecordEntry.ActorId), entry.ActorId is null || _random.Next(2) == 0 ? Id() : null),
            2 => (nameof(RecordEntry.ActorName), Other(entry.ActorName)),
            3 => (nameof(RecordEntry.StationId), Id()),
            4 => (nameof(RecordEntry.StationName), Other(entry.StationName ?? "")),
            5 => (nameof(RecordEntry.Code), Other(entry.Code)),
            6 => (nameof(RecordEntry.Subject), Other(entry.Subject)),
            7 => (nameof(RecordEntry.Changes), entry.Changes == "[]" ? "[{}]" : _random.Next(2) == 0 ? "[]" : entry.Changes.Replace('0', '1') + " "),
            8 => (nameof(RecordEntry.PreviousHash), Hex()),
            9 => (nameof(RecordEntry.Hash), Hex()),
            _ => ((string Column, object? Value))(nameof(RecordEntry.Seal), _random.Next(3) switch { 0 => null, 1 => Hex(), _ => entry.Seal?.ToUpperInvariant() }),
        };
        await _forged.SetAsync(entry.Sequence, column, value);
        return new($"{column} of entry {entry.Sequence} set to {value}", Entry(entry.Sequence));
    }

    private async Task<Tampering> EditAndChainAsync()
    {
        var entry = At(Any());
        var edited = _random.Next(4) switch
        {
            0 => entry with { ActorId = Id() },
            1 => entry with { Subject = Other(entry.Subject) },
            2 => entry with { Code = Other(entry.Code) },
            _ => entry with { AtUtc = entry.AtUtc.AddMinutes(_random.Next(1, 5000)) },
        };
        await _forged.ChainAsync(Before(entry.Sequence), [Sealed(edited, Before(entry.Sequence)), .. After(entry.Sequence)]);
        return new($"entry {entry.Sequence} edited, the chain worked out again", Entry(entry.Sequence), NeedsKey: true);
    }

    private async Task<Tampering> RemoveAsync()
    {
        var entry = Any();
        await _forged.DeleteAsync(entry);
        return new($"entry {entry} removed", entry == record.Count ? "RecordHead" : Entry(entry + 1));
    }

    private async Task<Tampering> RemoveAndChainAsync()
    {
        var entry = Any(leaveOut: 1);
        await _forged.ChainAsync(Before(entry), After(entry));
        return new($"entry {entry} removed, the chain worked out again", Entry(entry));
    }

    private async Task<Tampering> InsertAndChainAsync()
    {
        var place = _random.Next(1, record.Count + 2);
        var before = Before(place);
        var inserted = At(Any()) with { Subject = "Slipped in", Changes = "[]" };
        await _forged.ChainAsync(before, [Sealed(inserted, before), .. After(place - 1)]);
        return new($"an entry inserted at {place}, the chain worked out again", Entry(place), NeedsKey: true);
    }

    private async Task<Tampering> SwapAsync()
    {
        var (first, second) = Two();
        await _forged.ReplaceFromAsync([.. Swapped(first, second)]);
        return new($"entries {first} and {second} swapped", Entry(first));
    }

    private async Task<Tampering> SwapAndChainAsync()
    {
        var (first, second) = Two();
        await _forged.ChainAsync(Before(first), Swapped(first, second));
        return new($"entries {first} and {second} swapped, the chain worked out again", Entry(first));
    }

    private (long First, long Second) Two()
    {
        var first = Any(leaveOut: 1);
        return (first, first + 1 + _random.Next((int)(record.Count - first)));
    }

    private IEnumerable<ForgedEntry> Swapped(long first, long second) => After(first - 1).Select(e =>
        e.Sequence == first ? At(second) with { Sequence = first } : e.Sequence == second ? At(first) with { Sequence = second } : e);

    // With the rows that only these entries know: nothing within the database is left that tells.
    private async Task<Tampering> CutOffAsync()
    {
        var last = record.Count - _random.Next(1, 6);
        foreach (var entry in After(last))
        {
            await _forged.DeleteAsync(entry.Sequence);
            foreach (var change in JsonNode.Parse(entry.Changes)!.AsArray().Where(c => c!["before"] is null))
            {
                var row = rows.Single(r => r.Name == $"{change!["entity"]} {change["key"]}");
                await sql.ExecuteAsync($"DELETE FROM {row.Table} WHERE {row.Where}");
            }
        }

        await _forged.EndAsync(At(last));
        return new($"all behind entry {last} cut off", Entry(last + 1), NeedsFingerprint: true);
    }

    private async Task<Tampering> ChangeRowAsync()
    {
        var row = AnyRow(HasMoreThanAKey);
        return new($"{row.Name} {await ChangeAsync(row)}", row.Name);
    }

    private async Task<Tampering> DeleteRowAsync()
    {
        var row = AnyRow();
        await sql.ExecuteAsync($"DELETE FROM {row.Table} WHERE {row.Where}");
        return new($"{row.Name} deleted", row.Name);
    }

    private async Task<Tampering> InsertRowAsync()
    {
        var row = await InsertAsync();
        return new($"{row.Name} inserted", row.Name);
    }

    private async Task<Tampering> ChangeRowAndRecordAsync()
    {
        var row = AnyRow(type => IsNoPhoto(type) && HasMoreThanAKey(type));
        var what = await ChangeAsync(row);
        var entry = record.Last(e => ChangesOf(e, row).Any());
        var changes = JsonNode.Parse(entry.Changes)!.AsArray();
        changes.Last(c => $"{c!["entity"]} {c["key"]}" == row.Name)!["after"] = JsonNode.Parse(await ImageAsync(row));
        await _forged.ChainAsync(Before(entry.Sequence), [entry with { Changes = changes.ToJsonString(AsTheProgram) }, .. After(entry.Sequence)]);
        return new($"{row.Name} {what}, and so in entry {entry.Sequence}, the chain worked out again", Entry(entry.Sequence), NeedsKey: true);
    }

    private async Task<Tampering> DeleteRowAndRecordAsync()
    {
        var row = AnyRow(IsNoPhoto);
        var before = await ImageAsync(row);
        await sql.ExecuteAsync($"DELETE FROM {row.Table} WHERE {row.Where}");
        return await AppendAsync($"{row.Name} deleted", row, $"\"before\":{before}");
    }

    private async Task<Tampering> InsertRowAndRecordAsync()
    {
        var row = await InsertAsync();
        return await AppendAsync($"{row.Name} inserted", row, $"\"after\":{await ImageAsync(row)}");
    }

    private async Task<Tampering> AppendAsync(string what, RecordedRowAt row, string change)
    {
        var names = row.Name.Split(' ');
        var last = record[^1];
        var appended = At(Any()) with { AtUtc = last.AtUtc, Changes = $"[{{\"entity\":\"{names[0]}\",\"key\":\"{names[1]}\",{change}}}]" };
        await _forged.ChainAsync(last, [Sealed(appended, last)]);
        return new($"{what}, with an entry that says so", Entry(last.Sequence + 1), NeedsKey: true);
    }

    private async Task<string> ChangeAsync(RecordedRowAt row)
    {
        var columns = new List<(IProperty Property, object Value)>();
        foreach (var property in row.Type.GetProperties().Where(p => !p.IsPrimaryKey()))
        {
            if (await sql.ScalarAsync($"""SELECT "{property.GetColumnName()}" FROM {row.Table} WHERE {row.Where}""") is { } value and not DBNull)
            {
                columns.Add((property, value));
            }
        }

        var (chosen, before) = columns[_random.Next(columns.Count)];
        await sql.ExecuteAsync($"""UPDATE {row.Table} SET "{chosen.GetColumnName()}" = @value WHERE {row.Where}""", RecordedRows.Another(before, chosen));
        return $"with another {chosen.Name}";
    }

    // A copy of a row under another id, of a kind of which two alike may be there.
    private async Task<RecordedRowAt> InsertAsync()
    {
        var like = AnyRow(type => IsNoPhoto(type) && type.GetIndexes().All(i => !i.IsUnique) && type.FindPrimaryKey()!.Properties is [{ Name: "Id" }]);
        var id = Id();
        var text = engine == DatabaseEngine.Sqlite ? id.ToString().ToUpperInvariant() : id.ToString();
        var names = like.Type.GetProperties().Where(p => !p.IsPrimaryKey()).Select(p => $"\"{p.GetColumnName()}\"").ToList();
        await sql.ExecuteAsync($"INSERT INTO {like.Table} (\"Id\", {string.Join(", ", names)}) SELECT '{text}', {string.Join(", ", names)} FROM {like.Table} WHERE {like.Where}");
        return new(like.Type, $"{like.Type.ShortName()} {id}", $"\"Id\" = '{text}'");
    }

    private async Task<string> ImageAsync(RecordedRowAt row) =>
        await RecordedRows.ImageAsync(sql.Context, row) ?? throw new InvalidOperationException($"{row.Name} is not there.");
}
