using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Sumps;

namespace ShopFluids.Core.Readings;

/// <summary>
/// The queries of every stored reading, compiled once for each handler: looking a plan up again costs as much as running it. Not
/// static, because a compiled query belongs to one model and each engine has its own.
/// </summary>
internal sealed class HotQueries
{
    public Func<ShopFluidsDbContext, Guid, CancellationToken, Task<KnownReading?>> Known { get; } = EF.CompileAsyncQuery(
        (ShopFluidsDbContext db, Guid id, CancellationToken _) => db.Readings.Where(r => r.Id == id).Select(r => new KnownReading(r.Fingerprint, r.Outcome)).FirstOrDefault());

    public Func<ShopFluidsDbContext, Guid, CancellationToken, Task<Standing>> Standing { get; } = EF.CompileAsyncQuery(
        (ShopFluidsDbContext db, Guid sumpId, CancellationToken _) => db.Standings.Single(s => s.SumpId == sumpId));
}

/// <summary>What tells a repeated reading from another one of the same id.</summary>
internal sealed record KnownReading(string Fingerprint, ReadingOutcome? Outcome);
