using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Sheets;

/// <summary>The history sheets of one sump, or of all sumps of one machine.</summary>
/// <param name="From">First shop day; null begins with the current charge, or 90 days before the end.</param>
/// <param name="To">Last shop day, whole; null ends with today.</param>
public sealed record HistorySheetRequest(string Tag, DateOnly? From, DateOnly? To, string PrintedBy);

public sealed record HistorySheets(string Tag, DateOnly From, DateOnly To, IReadOnlyList<HistorySheet> Sheets);

public sealed record MachineNotFound(string Tag) : Error;

/// <summary>The machine has no sump of its own and hangs on no central system.</summary>
public sealed record MachineWithoutSump(string Tag) : Error;

/// <summary>Fills history sheets from the database, in the shop's own culture and units: a sheet is the shop's, not the reader's.</summary>
public sealed class HistorySheetQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    /// <summary>Without a charge to begin with, a sheet shows this many days.</summary>
    public const int UsualDays = 90;

    public async Task<Result<HistorySheets>> OfSumpAsync(HistorySheetRequest request, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(request);
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        return setup.FindSump(request.Tag) is { } sump
            ? await MakeAsync(db, setup, sump.Tag, [sump], request, cancellationToken)
            : new SumpNotFound(request.Tag);
    }

    public async Task<Result<HistorySheets>> OfMachineAsync(HistorySheetRequest request, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(request);
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        var key = Machines.Tags.Key(request.Tag);
        if (setup.Machines.FirstOrDefault(m => m.TagKey == key) is not { } machine)
        {
            return new MachineNotFound(request.Tag);
        }

        var sumps = setup.Sumps.Where(s => s.Machines.Any(m => m.MachineId == machine.Id)).ToList();
        return sumps.Count == 0 ? new MachineWithoutSump(machine.Tag) : await MakeAsync(db, setup, machine.Tag, sumps, request, cancellationToken);
    }

    private async Task<Result<HistorySheets>> MakeAsync(
        ShopFluidsDbContext db, ShopSetup setup, string tag, IReadOnlyList<Sump> sumps, HistorySheetRequest request, CancellationToken cancellationToken)
    {
        var now = clock.UtcNow;
        var calendar = setup.Calendar;
        var to = request.To ?? calendar.ShopDayOf(now);
        var begins = sumps.Select(s => setup.OpenCharge(s.Id)).OfType<Charge>().Select(c => calendar.ShopDayOf(c.FilledAtUtc)).Where(d => d <= to).ToList();
        var from = request.From ?? (begins.Count > 0 ? begins.Min() : to.AddDays(-UsualDays));
        var period = new SheetPeriod(from, to);
        if (period.Fault is { } fault)
        {
            return fault;
        }

        var sheets = await RecordStand.ReadAsync(
            db,
            async head =>
            {
                var made = new List<HistorySheet>();
                foreach (var sump in sumps)
                {
                    made.Add(await SheetAsync(db, setup, sump, period, now, request.PrintedBy, head, cancellationToken));
                }

                return made;
            },
            cancellationToken);
        return new HistorySheets(tag, from, to, sheets);
    }

    private static async Task<HistorySheet> SheetAsync(
        ShopFluidsDbContext db, ShopSetup setup, Sump sump, SheetPeriod period, DateTime now, string printedBy, RecordHead head, CancellationToken cancellationToken)
    {
        var (fromUtc, toUtc) = (period.FromUtc(setup.Calendar), period.ToUtc(setup.Calendar));
        var charges = await db.Charges.AsNoTracking().Where(c => c.SumpId == sump.Id).OrderBy(c => c.Number).ToListAsync(cancellationToken);
        var history = await new SumpHistoryReader(db, setup, sump.Id, fromUtc, toUtc).ReadAsync(cancellationToken);
        var standing = await db.Standings.AsNoTracking().FirstOrDefaultAsync(s => s.SumpId == sump.Id, cancellationToken);
        var open = charges.Find(c => c.DrainedAtUtc is null);
        var movements = open is null
            ? []
            : (await new SumpHistoryReader(db, setup, sump.Id, open.FilledAtUtc, now.AddDays(1)).MovementsOnlyAsync(cancellationToken)).Where(m => m.ChargeId == open.Id).ToList();
        var maker = new HistorySheetMaker(setup, sump, new Sentences(setup.FormatFor(), setup), now);
        return maker.Make(new HistorySheetFacts(period.From, period.To, fromUtc, toUtc, charges, history, movements, standing), printedBy, head);
    }
}

/// <summary>Everything read for one sheet.</summary>
/// <param name="ChargeMovements">What went into and out of the open charge since its fill, also before the period.</param>
internal sealed record HistorySheetFacts(
    DateOnly From,
    DateOnly To,
    DateTime FromUtc,
    DateTime ToUtc,
    IReadOnlyList<Charge> Charges,
    SumpHistory History,
    IReadOnlyList<HistoryMovement> ChargeMovements,
    Standing? Standing);
