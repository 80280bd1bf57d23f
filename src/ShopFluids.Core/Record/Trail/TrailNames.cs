using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;

namespace ShopFluids.Core.Record.Trail;

/// <summary>What the ids in the record stand for. Ids are unique across all kinds of rows, so one list serves them all.</summary>
internal static class TrailNames
{
    public static async Task<IReadOnlyDictionary<Guid, string>> OfAsync(ShopFluidsDbContext db, ShopSetup setup, IReadOnlyList<TrailEntry> entries, CancellationToken cancellationToken)
    {
        var names = new Dictionary<Guid, string>();
        foreach (var (id, name) in OfSetup(setup))
        {
            names[id] = name;
        }

        var unknown = entries.SelectMany(e => e.Rows ?? []).SelectMany(r => r.Cells).SelectMany(c => new[] { c.Before, c.After })
            .Select(text => Guid.TryParseExact(text, "D", out var id) ? id : Guid.Empty)
            .Where(id => !names.ContainsKey(id))
            .ToHashSet();
        if (unknown.Count == 0)
        {
            return names;
        }

        var people = await db.Users.AsNoTracking().Where(p => unknown.Contains(p.Id)).Select(p => new { p.Id, Name = p.DisplayName }).ToListAsync(cancellationToken);
        var lots = await db.FluidLots.AsNoTracking().Where(l => unknown.Contains(l.Id)).Select(l => new { l.Id, Name = l.Number }).ToListAsync(cancellationToken);
        var stations = await db.Stations.AsNoTracking().Where(s => unknown.Contains(s.Id)).Select(s => new { s.Id, s.Name }).ToListAsync(cancellationToken);
        foreach (var row in people.Concat(lots).Concat(stations))
        {
            names[row.Id] = row.Name;
        }

        var charges = await db.Charges.AsNoTracking().Where(c => unknown.Contains(c.Id)).Select(c => new { c.Id, c.SumpId, c.Number }).ToListAsync(cancellationToken);
        foreach (var charge in charges)
        {
            names[charge.Id] = string.Create(CultureInfo.InvariantCulture, $"{setup.FindSump(charge.SumpId)?.Tag} / {charge.Number}");
        }

        return names;
    }

    private static IEnumerable<(Guid Id, string Name)> OfSetup(ShopSetup setup) =>
    [
        .. setup.Site is { } site ? [(site.Id, site.Name)] : Array.Empty<(Guid, string)>(),
        .. setup.Areas.Select(a => (a.Id, a.Name)),
        .. setup.Machines.Select(m => (m.Id, m.Tag)),
        .. setup.Sumps.Select(s => (s.Id, s.Tag)),
        .. setup.Waters.Select(w => (w.Id, w.Name)),
        .. setup.Fluids.Select(f => (f.Id, f.Name)),
        .. setup.Instruments.Select(i => (i.Id, i.Tag)),
    ];
}
