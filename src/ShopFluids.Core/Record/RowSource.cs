using System.Reflection;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Record;

/// <summary>All rows of an entity whose type is known only from the model.</summary>
internal static class RowSource
{
    private static readonly MethodInfo Generic = typeof(RowSource).GetMethod(nameof(OfType), BindingFlags.NonPublic | BindingFlags.Static)
        ?? throw new InvalidOperationException("RowSource has lost its method.");

    public static IAsyncEnumerable<object> Of(ShopFluidsDbContext db, IEntityType type) =>
        (IAsyncEnumerable<object>?)Generic.MakeGenericMethod(type.ClrType).Invoke(null, [db])
        ?? throw new InvalidOperationException($"{type.Name} has no rows to read.");

    // Read without tracking and without navigations: the images need only the columns.
    private static IAsyncEnumerable<object> OfType<T>(ShopFluidsDbContext db)
        where T : class =>
        db.Set<T>().AsNoTracking().IgnoreAutoIncludes().AsAsyncEnumerable();
}
