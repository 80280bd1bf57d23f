using System.Collections.Frozen;
using Microsoft.EntityFrameworkCore.Metadata;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Record.Trail;

public enum ColumnKind
{
    Text,
    Number,
    Instant,
    Day,
    YesNo,

    /// <summary>One word of an enumeration.</summary>
    Word,

    /// <summary>The id of another row.</summary>
    Reference,

    /// <summary>A document of many values.</summary>
    Document,
}

/// <param name="Enumeration">Of a <see cref="ColumnKind.Word"/> its enumeration.</param>
public sealed record TrailColumn(ColumnKind Kind, Type? Enumeration = null);

/// <summary>What the columns of recorded rows hold, from the model; a column that it no longer has is text.</summary>
public sealed class TrailColumns
{
    private static readonly TrailColumn Text = new(ColumnKind.Text);
    private readonly FrozenDictionary<(string Entity, string Column), TrailColumn> _columns;

    public TrailColumns(IModel model)
    {
        ArgumentNullException.ThrowIfNull(model);
        _columns = model.GetEntityTypes().Where(t => typeof(IRecorded).IsAssignableFrom(t.ClrType))
            .SelectMany(t => t.GetProperties().Select(p => (Key: (t.ShortName(), p.Name), Column: Of(p))))
            .ToFrozenDictionary(c => c.Key, c => c.Column);
    }

    /// <summary>Every recorded kind of row with its columns.</summary>
    public IEnumerable<(string Entity, string Column)> All => _columns.Keys;

    public TrailColumn Of(string entity, string column) => _columns.GetValueOrDefault((entity, column), Text);

    /// <summary>
    /// Whether a column says something to a person: ids of the row itself, tokens against concurrent changes, and keys that repeat a tag or name
    /// in capitals do not, and neither does what is only kept to compare.
    /// </summary>
    public static bool IsShown(string column) =>
        column is not ("Id" or "Version" or "TagKey" or "NameKey" or "NumberKey" or "Fingerprint" or "Hash" or "NameDigest");

    private static TrailColumn Of(IProperty property)
    {
        if (property.GetValueConverter() is { } converter && converter.ProviderClrType == typeof(string))
        {
            return new(ColumnKind.Document);
        }

        var type = Nullable.GetUnderlyingType(property.ClrType) ?? property.ClrType;
        return type switch
        {
            { IsEnum: true } => new(ColumnKind.Word, type),
            _ when type == typeof(Guid) => new(ColumnKind.Reference),
            _ when type == typeof(bool) => new(ColumnKind.YesNo),
            _ when type == typeof(DateTime) => new(ColumnKind.Instant),
            _ when type == typeof(DateOnly) => new(ColumnKind.Day),
            _ when type == typeof(string) => Text,
            _ => new(ColumnKind.Number),
        };
    }
}
