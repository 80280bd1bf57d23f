using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Sheets.InstrumentChecks;

/// <summary>Fills the instrument check log, in the shop's own culture.</summary>
public sealed class InstrumentSheetQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    /// <param name="from">First shop day; null for the first of the year.</param>
    /// <param name="to">Last shop day; null for today.</param>
    /// <param name="printedBy">The person's name.</param>
    /// <param name="cancellationToken">Stops the reading.</param>
    public async Task<Result<InstrumentSheet>> RunAsync(DateOnly? from, DateOnly? to, string printedBy, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        var now = clock.UtcNow;
        var period = SheetPeriod.OfYear(from, to, setup.Calendar.ShopDayOf(now));
        if (period.Fault is { } fault)
        {
            return fault;
        }

        var format = setup.FormatFor();
        return await RecordStand.ReadAsync(
            db,
            async head =>
            {
                var facts = await new InstrumentReader(db, period.FromUtc(setup.Calendar), period.ToUtc(setup.Calendar)).ReadAsync(cancellationToken);
                var frame = SheetFrame.Of(setup, Texts.InstrumentSheet_Tag, Texts.InstrumentSheet_Title, period.Words(format), now, printedBy, head);
                return new InstrumentSheetMaker(setup, format, now).Make(frame, facts);
            },
            cancellationToken);
    }
}
