using System.Reflection;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Record;

/// <summary>All rows of an entity whose type is known only from the model.</summary>
internal static class RowSource
{
    private static readonly MethodInfo Generic = typeof(RowSource).GetMethod(nameof(OfType), BindingFlags.NonPublic | BindingFlags.Static)
        ?? throw new InvalidOperationException("RowSource has lost its method.");

    /// <summary>In the order of the key. Null stands for a row that somebody changed so that it cannot be read.</summary>
    public static IAsyncEnumerable<object?> Of(ShopFluidsDbContext db, IEntityType type) =>
        (IAsyncEnumerable<object?>?)Generic.MakeGenericMethod(type.ClrType).Invoke(null, [db, type])
        ?? throw new InvalidOperationException($"{type.Name} has no rows to read.");

    /// <summary>
    /// What reading throws where a column holds what it cannot mean. A document of which somebody took a part away reads as one with nothing in
    /// that place, and whoever asks for the part finds no object there.
    /// </summary>
    public static bool IsUnreadable(Exception exception) =>
        exception is NullReferenceException or JsonException or FormatException or InvalidCastException or InvalidDataException or OverflowException or ArgumentException or InvalidOperationException;

    private static async IAsyncEnumerable<object?> OfType<T>(ShopFluidsDbContext db, IEntityType type)
        where T : class
    {
        for (var (position, isEnd) = (0, false); !isEnd;)
        {
            // An unreadable row ends the reader; the next one begins behind it.
            await using var rows = Ordered<T>(db, type).Skip(position).AsAsyncEnumerable().GetAsyncEnumerator();
            for (var isReadable = true; isReadable && !isEnd;)
            {
                (isReadable, isEnd) = await MoveAsync(rows);
                if (!isEnd)
                {
                    position++;
                    yield return isReadable ? rows.Current : null;
                }
            }
        }
    }

    private static async Task<(bool IsReadable, bool IsEnd)> MoveAsync<T>(IAsyncEnumerator<T> rows)
    {
        try
        {
            return (true, !await rows.MoveNextAsync());
        }
        catch (Exception exception) when (IsUnreadable(exception))
        {
            return (false, false);
        }
    }

    // Read without tracking and without navigations: the images need only the columns.
    private static IQueryable<T> Ordered<T>(ShopFluidsDbContext db, IEntityType type)
        where T : class
    {
        var names = (type.FindPrimaryKey()?.Properties ?? []).Select(p => p.Name).ToList();
        var first = names[0];
        var rows = db.Set<T>().AsNoTracking().IgnoreAutoIncludes().OrderBy(e => EF.Property<object>(e, first));
        return names.Skip(1).Aggregate(rows, (ordered, name) => ordered.ThenBy(e => EF.Property<object>(e, name)));
    }
}
