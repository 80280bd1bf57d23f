using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Stores;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Sheets.LotTraces;

/// <param name="Lot">The lot's number, in any case, or its id.</param>
/// <param name="From">First shop day; null from the day on which it was received.</param>
/// <param name="To">Last shop day; null for today.</param>
public sealed record LotSheetRequest(string Lot, DateOnly? From, DateOnly? To, string PrintedBy);

/// <summary>A number may stand on lots of several fluids: each has its sheet.</summary>
public sealed record LotSheets(string Number, IReadOnlyList<LotSheet> Sheets);

public sealed record LotNumberUnknown(string Number) : Error;

/// <summary>Fills lot trace sheets, in the shop's own culture and units.</summary>
public sealed class LotSheetQuery(ShopDatabase database, SetupCache setups, ShopClock clock, LotTraceQuery traces)
{
    public async Task<Result<LotSheets>> RunAsync(LotSheetRequest request, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(request);
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        var now = clock.UtcNow;
        var (key, id) = (FluidLot.KeyOf(request.Lot), Guid.TryParse(request.Lot, out var read) ? read : (Guid?)null);
        var lots = await db.FluidLots.AsNoTracking().Where(l => l.NumberKey == key || l.Id == id)
            .OrderBy(l => l.ReceivedOn).ThenBy(l => l.Id).Select(l => new { l.Id, l.Number, l.ReceivedOn }).ToListAsync(cancellationToken);
        if (lots.Count == 0)
        {
            return new LotNumberUnknown(request.Lot);
        }

        var to = request.To ?? setup.Calendar.ShopDayOf(now);
        var period = new SheetPeriod(request.From ?? Earlier(lots.Min(l => l.ReceivedOn), to), to);
        if (period.Fault is { } fault)
        {
            return fault;
        }

        var say = new Sentences(setup.FormatFor(), setup);
        var sheets = await RecordStand.ReadAsync(
            db,
            async head =>
            {
                var made = new List<LotSheet>();
                foreach (var lot in lots)
                {
                    var trace = await traces.OfLotAsync(lot.Id, period.From, period.To, cancellationToken) ?? throw new InvalidOperationException("A lot is never taken away.");
                    var sumps = trace.Charges.Select(c => setup.FindSump(c.SumpTag)?.Id).OfType<Guid>().Distinct().ToList();
                    var back = await traces.OfSumpsAsync(sumps, period.From, period.To, cancellationToken);
                    var frame = SheetFrame.Of(setup, lot.Number, Texts.LotSheet_Title, period.Words(say.Format), now, request.PrintedBy, head);
                    made.Add(new LotSheetMaker(setup, say, now).Make(frame, trace, back));
                }

                return made;
            },
            cancellationToken);
        return new LotSheets(lots[0].Number, sheets);
    }

    private static DateOnly Earlier(DateOnly one, DateOnly other) => one < other ? one : other;
}
