using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Testing.Shop;

namespace ShopFluids.Core.Tests.Record.Tampering;

/// <summary>Writes a record as somebody would have it into the database, by plain SQL.</summary>
internal sealed class ForgedRecord(RawSql sql)
{
    public Task SetAsync(long sequence, string column, object? value) =>
        ExecuteAsync($"UPDATE \"RecordEntries\" SET \"{column}\" = {{0}} WHERE \"Sequence\" = {Number(sequence)}", value);

    public Task DeleteAsync(long sequence) => sql.ExecuteAsync($"DELETE FROM \"RecordEntries\" WHERE \"Sequence\" = {Number(sequence)}");

    /// <summary>Writes the entries in place of all from the first of them on.</summary>
    public async Task ReplaceFromAsync(IReadOnlyList<ForgedEntry> entries)
    {
        await sql.ExecuteAsync($"DELETE FROM \"RecordEntries\" WHERE \"Sequence\" >= {Number(entries.Min(e => e.Sequence))}");
        var names = string.Join(", ", entries[0].Columns.Select(c => $"\"{c.Column}\""));
        foreach (var entry in entries)
        {
            var places = string.Join(", ", entry.Columns.Select((_, n) => $"{{{Number(n)}}}"));
            await ExecuteAsync($"INSERT INTO \"RecordEntries\" ({names}) VALUES ({places})", [.. entry.Columns.Select(c => c.Value)]);
        }
    }

    /// <summary>Writes the entries, each of them behind the one before, and lets the head point at the last.</summary>
    /// <param name="before">The last entry that stays as it is; null for none.</param>
    public async Task ChainAsync(ForgedEntry? before, IEnumerable<ForgedEntry> entries)
    {
        var chained = new List<ForgedEntry>();
        foreach (var entry in entries)
        {
            before = entry.Behind(before);
            chained.Add(before);
        }

        await ReplaceFromAsync(chained);
        await EndAsync(chained[^1]);
    }

    public Task EndAsync(ForgedEntry last) => ExecuteAsync("UPDATE \"RecordHead\" SET \"Sequence\" = {0}, \"Hash\" = {1}", last.Sequence, last.Hash);

    private static string Number(long number) => number.ToString(CultureInfo.InvariantCulture);

    // NULL is written out: an engine cannot tell the type of a value that is none.
    private Task<int> ExecuteAsync(string statement, params object?[] values)
    {
        var places = new List<string>();
        var given = new List<object>();
        foreach (var value in values)
        {
            places.Add(value is null ? "NULL" : $"{{{Number(given.Count)}}}");
            given.AddRange(value is null ? [] : [value]);
        }

        return sql.Context.Database.ExecuteSqlRawAsync(string.Format(CultureInfo.InvariantCulture, statement, [.. places]), given);
    }
}
