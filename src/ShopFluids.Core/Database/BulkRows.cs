using System.Collections.Concurrent;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using Microsoft.EntityFrameworkCore.Storage;

namespace ShopFluids.Core.Database;

/// <summary>New rows of one table, and how each column of them goes to the driver.</summary>
public sealed class BulkRows
{
    private static readonly ConcurrentDictionary<IEntityType, IReadOnlyList<BulkColumn>> Known = new();

    public BulkRows(IEntityType type, IReadOnlyList<object> rows)
    {
        ArgumentNullException.ThrowIfNull(type);
        Table = type.GetTableName() ?? throw new InvalidOperationException($"{type.Name} has no table.");
        Columns = Known.GetOrAdd(type, static t => [.. t.GetProperties().Select(p => new BulkColumn(p.GetColumnName(), p.GetRelationalTypeMapping(), p.GetGetter()))]);
        Rows = rows;
    }

    public string Table { get; }

    public IReadOnlyList<BulkColumn> Columns { get; }

    public IReadOnlyList<object> Rows { get; }
}

/// <summary>A column, and its value in a row.</summary>
public sealed record BulkColumn(string Name, RelationalTypeMapping Mapping, IClrPropertyGetter Getter)
{
    /// <summary>As the driver takes it; null for an empty one.</summary>
    public object? ValueOf(object row) => Getter.GetClrValue(row) is { } value ? Mapping.Converter?.ConvertToProvider(value) ?? value : null;
}
