using System.Globalization;
using System.Reflection;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Record.Tampering;

/// <summary>A row that the record knows.</summary>
/// <param name="Name">How the record names it.</param>
/// <param name="Where">The condition that finds it in SQL.</param>
internal sealed record RecordedRowAt(IEntityType Type, string Name, string Where)
{
    public string Table => $"\"{Type.GetTableName()}\"";
}

/// <summary>The recorded rows of a database, found by the model, so that a new entity is among them from its first day.</summary>
internal static partial class RecordedRows
{
    private static readonly MethodInfo Generic = typeof(RecordedRows).GetMethod(nameof(OfTypeAsync), BindingFlags.NonPublic | BindingFlags.Static)!;

    public static async Task<List<RecordedRowAt>> AllAsync(TestDatabase database)
    {
        await using var db = database.Open();
        var rows = new List<RecordedRowAt>();
        foreach (var type in db.Model.GetEntityTypes().Where(t => typeof(IRecorded).IsAssignableFrom(t.ClrType)).OrderBy(t => t.ShortName(), StringComparer.Ordinal))
        {
            var found = (await EntitiesAsync(db, type)).ConvertAll(entity => RowOf(db, type, entity, database.Engine));
            Assert.True(found.Count > 0, $"{nameof(BusyShop)} has no {type.ShortName()}, so nobody knows whether verification sees a change of one.");
            rows.AddRange(found.OrderBy(r => r.Name, StringComparer.Ordinal));
        }

        return rows;
    }

    /// <summary>The row as it stands now, as the record would hold it; null when it is gone.</summary>
    public static async Task<string?> ImageAsync(ShopFluidsDbContext db, RecordedRowAt row)
    {
        foreach (var entity in await EntitiesAsync(db, row.Type))
        {
            var entry = db.Entry(entity);
            if ($"{row.Type.ShortName()} {RowImage.KeyOf(entry)}" == row.Name)
            {
                return RowImage.Of(entry);
            }
        }

        return null;
    }

    public static bool IsJson(IProperty property) => property.GetValueConverter() is { } converter && converter.ProviderClrType == typeof(string);

    /// <summary>Another value than the one in the column, and one that the column could hold.</summary>
    public static object Another(object before, IProperty property)
    {
        var type = Nullable.GetUnderlyingType(property.ClrType) ?? property.ClrType;
        return before switch
        {
            string text when IsJson(property) => AnotherJson(text),
            string text when type == typeof(decimal) => (decimal.Parse(text, CultureInfo.InvariantCulture) + 1).ToString("0.0###", CultureInfo.InvariantCulture),
            string text when type == typeof(DateTime) || type == typeof(DateOnly) => "3" + text[1..],
            string when type == typeof(Guid) => Some.Id().ToString().ToUpperInvariant(),
            string text => text.Length == 0 ? "x" : text[..^1] + (text[^1] == 'X' ? 'Y' : 'X'),
            bool flag => !flag,
            short number => (short)(number + 1),
            int number => number + 1,
            long number when type == typeof(bool) => 1 - number,
            long number => number + 1,
            double number => number + 1,
            decimal number => number + 1,
            Guid => Some.Id(),
            DateTime instant => instant.AddDays(1),
            DateOnly day => day.AddDays(1),
            _ => throw new InvalidOperationException($"{property.DeclaringType.ShortName()}.{property.Name} is a {before.GetType().Name}: say how to change one."),
        };
    }

    private static RecordedRowAt RowOf(ShopFluidsDbContext db, IEntityType type, object entity, DatabaseEngine engine)
    {
        var entry = db.Entry(entity);
        var conditions = type.FindPrimaryKey()!.Properties.Select(p =>
        {
            var value = string.Create(CultureInfo.InvariantCulture, $"{entry.CurrentValues[p]}");
            return $"\"{p.GetColumnName()}\" = '{(p.ClrType == typeof(Guid) && engine == DatabaseEngine.Sqlite ? value.ToUpperInvariant() : value)}'";
        });
        return new(type, $"{type.ShortName()} {RowImage.KeyOf(entry)}", string.Join(" AND ", conditions));
    }

    private static Task<List<object>> EntitiesAsync(ShopFluidsDbContext db, IEntityType type) => (Task<List<object>>)Generic.MakeGenericMethod(type.ClrType).Invoke(null, [db])!;

    private static async Task<List<object>> OfTypeAsync<T>(ShopFluidsDbContext db)
        where T : class =>
        [.. await db.Set<T>().AsNoTracking().IgnoreAutoIncludes().ToListAsync()];

    // Still JSON of the same shape: another digit, else another letter, and something where there was nothing.
    private static string AnotherJson(string text) => text switch
    {
        "[]" => """["x"]""",
        "{}" => """{"x":1}""",
        _ when ADigit().IsMatch(text) => ADigit().Replace(text, d => d.Value == "1" ? "2" : "1", 1),
        _ => ALetter().Replace(text, l => l.Value == "\"x" ? "\"y" : "\"x", 1),
    };

    [GeneratedRegex("[0-9]", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex ADigit();

    [GeneratedRegex("\"[a-z]", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex ALetter();
}
