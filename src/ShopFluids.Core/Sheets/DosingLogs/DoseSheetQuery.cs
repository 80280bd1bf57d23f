using ShopFluids.Core.Database;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Sheets.DosingLogs;

/// <summary>Fills the dosing log, in the shop's own culture.</summary>
public sealed class DoseSheetQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    /// <param name="from">First shop day; null for the first of the year.</param>
    /// <param name="to">Last shop day; null for today.</param>
    /// <param name="printedBy">The person's name.</param>
    /// <param name="cancellationToken">Stops the reading.</param>
    public async Task<Result<DoseSheet>> RunAsync(DateOnly? from, DateOnly? to, string printedBy, CancellationToken cancellationToken)
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
        var (fromUtc, toUtc) = (period.FromUtc(setup.Calendar), period.ToUtc(setup.Calendar));
        return await RecordStand.ReadAsync(
            db,
            async head =>
            {
                var doses = await DosesQuery.ReadAsync(db, setup, all => all.Where(d => d.GivenAtUtc >= fromUtc && d.GivenAtUtc < toUtc), cancellationToken);
                var frame = SheetFrame.Of(setup, Texts.DoseSheet_Tag, Texts.DoseSheet_Title, period.Words(format), now, printedBy, head);
                return Make(frame, doses, format, now);
            },
            cancellationToken);
    }

    private static DoseSheet Make(SheetFrame frame, IReadOnlyList<DoseRow> doses, ShopFormat format, DateTime nowUtc) => new(
        frame,
        format.Count(doses.Count(d => d.StruckOut is null)),
        format.Count(doses.Count(d => d.StruckOut is null && DoseKinds.IsBiocidal(d.Kind))),
        [.. DoseTotal.Of(doses).Select(t => new DoseSheetTotal(t.Product, DoseSentences.Kind(t.Kind), format.Count(t.Doses), DoseSentences.Amount(t.Amount, t.Unit, format)))],
        [.. doses.Select(d => new DoseSheetEntry(
            format.Moment(d.GivenAtUtc, nowUtc),
            d.SumpTag,
            d.Product,
            DoseSentences.Kind(d.Kind),
            DoseSentences.Amount(d.Amount, d.Unit, format),
            DoseSentences.Strength(d.Reached, d.Measure, format),
            d.LabelMost is null ? Texts.Sheet_NotRecorded : DoseSentences.LabelMost(d, format),
            d.ReentryUntilUtc is { } until ? format.Moment(until, nowUtc) : Texts.Sheet_NotRecorded,
            DoseSentences.Reasons(d, format),
            d.By,
            DoseSentences.StruckOut(d, format, nowUtc)))]);
}
