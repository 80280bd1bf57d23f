using System.Text.Json;

namespace ShopFluids.Core.Record.Trail;

public enum RowChangeKind
{
    Made,
    Changed,
    Removed,
}

/// <summary>One row that an act made, changed or removed.</summary>
/// <param name="Entity">The kind of row, such as Reading.</param>
/// <param name="Key">Its key as the record writes it.</param>
/// <param name="Cells">Of a changed row those columns that changed, of others every column that holds something.</param>
public sealed record RowChange(string Entity, string Key, RowChangeKind Kind, IReadOnlyList<CellChange> Cells)
{
    /// <summary>The rows of an entry; null where its text is not what the program writes, which only a change by hand can bring about.</summary>
    public static IReadOnlyList<RowChange>? Read(string changes)
    {
        try
        {
            using var document = JsonDocument.Parse(changes);
            return [.. document.RootElement.EnumerateArray().Select(Read)];
        }
        catch (Exception unreadable) when (IsUnreadable(unreadable))
        {
            return null;
        }
    }

    /// <summary>What reading throws where something does not say what the program writes.</summary>
    public static bool IsUnreadable(Exception exception) => RowSource.IsUnreadable(exception) || exception is KeyNotFoundException;

    private static RowChange Read(JsonElement change)
    {
        var before = change.TryGetProperty("before", out var was) ? was : (JsonElement?)null;
        var after = change.TryGetProperty("after", out var now) ? now : (JsonElement?)null;
        var kind = (before, after) switch
        {
            (null, _) => RowChangeKind.Made,
            (_, null) => RowChangeKind.Removed,
            _ => RowChangeKind.Changed,
        };
        var columns = (kind == RowChangeKind.Made ? after : before) ?? throw new KeyNotFoundException("A change of no row.");
        return new(
            change.GetProperty("entity").GetString() ?? "",
            change.GetProperty("key").GetString() ?? "",
            kind,
            [.. columns.EnumerateObject()
                .Select(c => new CellChange(c.Name, Text(before, c.Name), Text(after, c.Name)))
                .Where(c => c.Before != c.After && (c.Before ?? "").Length + (c.After ?? "").Length > 0)]);
    }

    private static string? Text(JsonElement? row, string column) => row is { } there && there.TryGetProperty(column, out var value) ? value.GetString() : null;
}

/// <summary>One column of a changed row, as text of <see cref="RowImage"/>.</summary>
/// <param name="Before">Null where there was no row or nothing in it.</param>
/// <param name="After">Null where there is no row any more or nothing in it.</param>
public sealed record CellChange(string Column, string? Before, string? After);
