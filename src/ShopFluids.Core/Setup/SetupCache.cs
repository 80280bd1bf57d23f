using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Setup;

/// <summary>
/// Holds the latest snapshot. A write learns the current version from the head that it locks anyway, so a snapshot is never
/// older than the transaction that uses it, on any number of instances.
/// </summary>
public sealed class SetupCache(ShopDatabase database, IDatabaseProvider provider)
{
    // Asked by every page and every save.
    private readonly Func<ShopFluidsDbContext, CancellationToken, Task<long>> _version =
        EF.CompileAsyncQuery((ShopFluidsDbContext db, CancellationToken _) => db.RecordHead.Select(h => h.SetupVersion).Single());

    private ShopSetup? _latest;

    /// <summary>The snapshot as of now; one small query when it is still current.</summary>
    public async Task<ShopSetup> CurrentAsync(CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        return await CurrentAsync(db, cancellationToken);
    }

    public async Task<ShopSetup> CurrentAsync(ShopFluidsDbContext db, CancellationToken cancellationToken) =>
        await CurrentAsync(db, await _version(db, cancellationToken), cancellationToken);

    /// <param name="version">Just read of the head.</param>
    internal async Task<ShopSetup> CurrentAsync(ShopFluidsDbContext db, long version, CancellationToken cancellationToken)
    {
        if (Known(version) is { } known)
        {
            return known;
        }

        if (db.Database.CurrentTransaction is not null)
        {
            return await OfVersionAsync(db, version, cancellationToken);
        }

        // Version and tables of one moment: a write between two of the statements must not mix old rows with new ones.
        await using var moment = await db.Database.BeginTransactionAsync(provider.OneMoment, cancellationToken);
        return await OfVersionAsync(db, await _version(db, cancellationToken), cancellationToken);
    }

    /// <summary>The snapshot for a write that has locked the head: nobody else changes anything meanwhile.</summary>
    public Task<ShopSetup> ForAsync(ShopWrite write, CancellationToken cancellationToken) =>
        OfVersionAsync(write.Database, write.SetupVersion, cancellationToken);

    private ShopSetup? Known(long version) => Volatile.Read(ref _latest) is { } latest && latest.Version == version ? latest : null;

    private async Task<ShopSetup> OfVersionAsync(ShopFluidsDbContext db, long version, CancellationToken cancellationToken)
    {
        if (Known(version) is { } known)
        {
            return known;
        }

        var loaded = new ShopSetup(
            version,
            await db.Sites.AsNoTracking().OrderBy(s => s.Id).FirstOrDefaultAsync(cancellationToken),
            await db.Areas.AsNoTracking().OrderBy(a => a.WalkOrder).ThenBy(a => a.Name).ToListAsync(cancellationToken),
            await db.Machines.AsNoTracking().OrderBy(m => m.TagKey).ToListAsync(cancellationToken),
            await db.Sumps.AsNoTracking().Include(s => s.Machines).OrderBy(s => s.WalkOrder).ThenBy(s => s.TagKey).ToListAsync(cancellationToken),
            await db.WaterSources.AsNoTracking().OrderBy(w => w.Name).ToListAsync(cancellationToken),
            await db.Fluids.AsNoTracking().OrderBy(f => f.NameKey).ToListAsync(cancellationToken),
            await db.Charges.AsNoTracking().Where(c => c.DrainedAtUtc == null).ToListAsync(cancellationToken),
            await db.Parameters.AsNoTracking().OrderBy(p => p.Order).ThenBy(p => p.Code).ToListAsync(cancellationToken),
            await db.LimitSets.AsNoTracking().ToListAsync(cancellationToken),
            await db.RuleSettings.AsNoTracking().ToListAsync(cancellationToken),
            await db.Instruments.AsNoTracking().OrderBy(i => i.TagKey).ToListAsync(cancellationToken),
            await db.CarePlans.AsNoTracking().Include(p => p.Steps).ToListAsync(cancellationToken),
            await db.Shutdowns.AsNoTracking().OrderBy(s => s.FirstDay).ThenBy(s => s.Id).ToListAsync(cancellationToken));
        Volatile.Write(ref _latest, loaded);
        return loaded;
    }
}
