using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Sheets.WasteLogs;

/// <summary>Fills the waste log, in the shop's own culture and units.</summary>
public sealed class WasteSheetQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    /// <param name="from">First shop day; null for the first of the year.</param>
    /// <param name="to">Last shop day; null for today.</param>
    /// <param name="printedBy">The person's name.</param>
    /// <param name="cancellationToken">Stops the reading.</param>
    public async Task<Result<WasteSheet>> RunAsync(DateOnly? from, DateOnly? to, string printedBy, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        var now = clock.UtcNow;
        var period = SheetPeriod.OfYear(from, to, setup.Calendar.ShopDayOf(now));
        if (period.Fault is { } fault)
        {
            return fault;
        }

        var say = new Sentences(setup.FormatFor(), setup);
        return await RecordStand.ReadAsync(
            db,
            async head =>
            {
                var names = await db.Users.AsNoTracking().ToDictionaryAsync(p => p.Id, p => p.DisplayName, cancellationToken);
                var waste = await new WasteReader(db, setup, period.FromUtc(setup.Calendar), period.ToUtc(setup.Calendar)).ReadAsync(cancellationToken);
                var frame = SheetFrame.Of(setup, Texts.WasteSheet_Tag, Texts.WasteSheet_Title, period.Words(say.Format), now, printedBy, head);
                return new WasteSheetMaker(say, names, now).Make(frame, waste);
            },
            cancellationToken);
    }
}

internal sealed class WasteSheetMaker(Sentences say, Dictionary<Guid, string> names, DateTime nowUtc)
{
    // In the European List of Waste a star marks hazardous waste.
    private const char HazardousMark = '*';

    private ShopFormat Format => say.Format;

    public WasteSheet Make(SheetFrame frame, IReadOnlyList<WasteFact> waste)
    {
        var firsts = waste.Where(w => w.CleanOutId is not null).DistinctBy(w => w.CleanOutId).ToHashSet<object>(ReferenceEqualityComparer.Instance);
        var uncoded = waste.Where(w => w.Code is null).Sum(w => w.Litres);
        return new(
            frame,
            Volume(waste.Sum(w => w.Litres)),
            Volume(waste.Where(w => w.Code?.EndsWith(HazardousMark) == true).Sum(w => w.Litres)),
            uncoded == 0 ? null : Volume(uncoded),
            [.. waste.GroupBy(w => w.Code).OrderByDescending(g => g.Sum(w => w.Litres)).ThenBy(g => g.Key, StringComparer.Ordinal)
                .Select(g => new WasteSheetCode(Code(g.Key), Meaning(g.Key), Format.Count(g.Count()), Litres(g.Sum(w => w.Litres))))],
            [.. waste.GroupBy(w => Format.Calendar.MonthOf(w.AtUtc)).OrderByDescending(g => g.Key).SelectMany(Month)],
            [.. waste.Select(w => new WasteSheetEntry(
                Format.Moment(w.AtUtc, nowUtc),
                w.From,
                What(w),
                Code(w.Code),
                Litres(w.Litres),
                w.CleanOutId is null || firsts.Contains(w) ? Halogens(w) : "",
                w.Carrier.Length == 0 ? Texts.Sheet_NotRecorded : w.Carrier,
                w.PersonId is { } id ? names.GetValueOrDefault(id, "") : ""))]);
    }

    private string Halogens(WasteFact waste) => waste.HalogensMgPerKg is { } halogens ? CleanOutSentences.Halogens(Format, halogens) : Texts.WasteSheet_NotTested;

    private IEnumerable<WasteSheetMonth> Month(IGrouping<DateOnly, WasteFact> month) =>
        month.GroupBy(w => w.Code).OrderByDescending(g => g.Sum(w => w.Litres)).ThenBy(g => g.Key, StringComparer.Ordinal)
            .Select((g, n) => new WasteSheetMonth(
                n == 0 ? Format.Month(month.Key) : "",
                Code(g.Key),
                Litres(g.Sum(w => w.Litres)),
                n == 0 ? Litres(month.Sum(w => w.Litres)) : ""));

    private string What(WasteFact waste) => waste.Source switch
    {
        WasteSource.Removal => Texts.Sheet_MovedRemoval,
        WasteSource.Drain => Texts.Sheet_MovedDrain,
        WasteSource.CleanOut => Format.Say(Texts.WasteSheet_CleanOut, CleanOutSentences.Step(waste.Step ?? default)),
        _ => Texts.WasteSheet_Lot,
    };

    private static string Code(string? code) => code ?? Texts.Sheet_NotRecorded;

    private static string Meaning(string? code) => code is null || CleanOutSentences.WasteCode(code) == code ? "" : CleanOutSentences.WasteCode(code);

    private string Litres(decimal litres) => Format.VolumeNumber((double)litres);

    private string Volume(decimal litres) => Format.Volume((double)litres);
}
