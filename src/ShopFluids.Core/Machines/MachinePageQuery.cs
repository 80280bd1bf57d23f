using ShopFluids.Core.Board;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Stores;
using ShopFluids.Core.Time;

namespace ShopFluids.Core.Machines;

/// <summary>Everything about one machine on one page: the sumps that serve it and how they stand, what was used, what was in them.</summary>
/// <param name="Sumps">In walking order.</param>
/// <param name="Months">Used by its sumps, the latest month first; of a central system by all its machines together.</param>
/// <param name="Charges">What was in its sumps in the same months, with lots.</param>
public sealed record MachineNow(
    DateTime AtUtc, ShopSetup Setup, Machine Machine, string AreaName, IReadOnlyList<BoardRow> Sumps, IReadOnlyList<MonthUse> Months, IReadOnlyList<SumpLots> Charges)
{
    /// <summary>A sump of it serves other machines too, so that what was used is not its own alone.</summary>
    public bool SharesASump => Sumps.Any(s => s.Machines.Count > 1);
}

public sealed class MachinePageQuery(ShopDatabase database, SetupCache setups, ShopClock clock, BoardQuery board, LotTraceQuery lots)
{
    /// <summary>Null when there is no machine of this tag.</summary>
    public async Task<MachineNow?> RunAsync(string tag, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(tag);
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        var key = Tags.Key(tag);
        if (setup.Machines.FirstOrDefault(m => m.TagKey == key) is not { } machine)
        {
            return null;
        }

        var sumps = setup.Sumps.Where(s => s.Machines.Any(m => m.MachineId == machine.Id)).Select(s => s.Id).ToList();
        var now = clock.UtcNow;
        var today = setup.Calendar.ShopDayOf(now);
        var first = new DateOnly(today.Year, today.Month, 1).AddMonths(1 - StoresQuery.Months);
        var shop = await board.RunAsync(new BoardFilter(), cancellationToken);
        return new(
            now,
            setup,
            machine,
            setup.Area(machine.AreaId).Name,
            [.. shop.Rows.Concat(shop.Quiet).Where(r => sumps.Contains(r.SumpId)).OrderBy(r => sumps.IndexOf(r.SumpId))],
            await FluidUse.OfAsync(db, setup, sumps, setup.Calendar.StartOf(first), now, cancellationToken),
            await lots.OfSumpsAsync(sumps, first, null, cancellationToken));
    }
}
