using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.People.Stations;

namespace ShopFluids.Core.Displays;

/// <summary>A display in use, as it presents itself with its secret.</summary>
/// <param name="AreaId">The only area that it shows; null: all in turn.</param>
public sealed record DisplayHere(Guid Id, string Name, string Theme, Guid? AreaId);

public sealed record DisplayRow(Guid Id, string Name, string Theme, Guid? AreaId, DateTime MadeAtUtc, DateTime? RevokedAtUtc);

public sealed class DisplaysQuery(ShopDatabase shop)
{
    /// <summary>Those in use first, by name.</summary>
    public async Task<IReadOnlyList<DisplayRow>> AllAsync(CancellationToken cancellationToken)
    {
        await using var database = await shop.ReadAsync(cancellationToken);
        var rows = await database.Displays.AsNoTracking().Select(d => new DisplayRow(d.Id, d.Name, d.Theme, d.AreaId, d.MadeAtUtc, d.RevokedAtUtc)).ToListAsync(cancellationToken);
        return [.. rows.OrderBy(d => d.RevokedAtUtc is not null).ThenBy(d => d.Name, StringComparer.OrdinalIgnoreCase).ThenBy(d => d.Id)];
    }

    /// <returns>Null when no display in use has a link with this secret.</returns>
    public async Task<DisplayHere?> OfSecretAsync(string secret, CancellationToken cancellationToken)
    {
        var hash = StationRules.HashOf(secret);
        await using var database = await shop.ReadAsync(cancellationToken);
        return await (from key in database.DisplayKeys
                      join display in database.Displays on key.DisplayId equals display.Id
                      where key.Hash == hash && display.RevokedAtUtc == null
                      select new DisplayHere(display.Id, display.Name, display.Theme, display.AreaId)).SingleOrDefaultAsync(cancellationToken);
    }
}
