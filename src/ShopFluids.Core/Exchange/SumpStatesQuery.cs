using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Board;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Core.Exchange;

/// <summary>A sump and how it stands, for another program.</summary>
/// <param name="Facts">The latest values and what is open; null when the sump stands empty.</param>
public sealed record SumpState(
    string Tag,
    string Area,
    IReadOnlyList<string> Machines,
    bool IsRetired,
    string? Fluid,
    DateTime? FilledAtUtc,
    SumpStanding Standing,
    double? VolumeLitres,
    DateTime? LastReadAtUtc,
    DateTime? NextTestDueAtUtc,
    StandingFacts? Facts);

public sealed class SumpStatesQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    /// <summary>All sumps in walking order, those out of use last. A shop has hundreds at most, so the list is whole.</summary>
    public async Task<IReadOnlyList<SumpState>> AllAsync(CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        var standings = await db.Standings.AsNoTracking().ToDictionaryAsync(s => s.SumpId, cancellationToken);
        return [.. setup.Sumps.OrderBy(s => s.IsRetired).Select(s => Of(s, setup, standings.GetValueOrDefault(s.Id)))];
    }

    /// <returns>Null when there is no such sump.</returns>
    public async Task<SumpState?> OneAsync(string tag, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        return setup.FindSump(tag) is { } sump
            ? Of(sump, setup, await db.Standings.AsNoTracking().SingleOrDefaultAsync(s => s.SumpId == sump.Id, cancellationToken))
            : null;
    }

    private SumpState Of(Sump sump, ShopSetup setup, Standing? standing)
    {
        var charge = setup.OpenCharge(sump.Id);
        var facts = charge is null ? null : standing?.Facts;
        return new(
            sump.Tag,
            setup.Area(sump.AreaId).Name,
            [.. setup.MachinesOf(sump).Select(m => m.Tag)],
            sump.IsRetired,
            charge is null ? null : setup.Fluid(charge.FluidId).Name,
            charge?.FilledAtUtc,
            SumpStanding.Of(facts, clock.UtcNow),
            standing?.VolumeLitres,
            standing?.LastReadAtUtc,
            standing?.NextTestDueAtUtc,
            facts);
    }
}
