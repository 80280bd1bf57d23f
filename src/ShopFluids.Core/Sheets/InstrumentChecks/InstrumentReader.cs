using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Instruments;
using ShopFluids.Rules.InstrumentCheck;

namespace ShopFluids.Core.Sheets.InstrumentChecks;

/// <param name="By">Who made it; empty for a program.</param>
internal sealed record CheckMade(InstrumentCheck Check, string By);

/// <param name="UntilUtc">Null while it lasts.</param>
/// <param name="Values">Read with it meanwhile, in the readings that count.</param>
internal sealed record Lapse(Guid InstrumentId, DateTime FromUtc, DateTime? UntilUtc, int Values, string Answer);

internal sealed record InstrumentFactsRead(IReadOnlyList<Instrument> Instruments, IReadOnlyList<CheckMade> Checks, IReadOnlyList<Lapse> Lapses);

internal sealed class InstrumentReader(ShopFluidsDbContext db, DateTime fromUtc, DateTime toUtc)
{
    public async Task<InstrumentFactsRead> ReadAsync(CancellationToken cancellationToken) => new(
        await db.Instruments.AsNoTracking().OrderBy(i => i.TagKey).ToListAsync(cancellationToken),
        await ChecksAsync(cancellationToken),
        await LapsesAsync(cancellationToken));

    private async Task<List<CheckMade>> ChecksAsync(CancellationToken cancellationToken)
    {
        var checks = await (
            from check in db.InstrumentChecks.AsNoTracking()
            join person in db.Users on check.PersonId equals person.Id into people
            from person in people.DefaultIfEmpty()
            where check.NotedAtUtc >= fromUtc && check.NotedAtUtc < toUtc
            orderby check.NotedAtUtc descending, check.Id
            select new { Check = check, By = person == null ? "" : person.DisplayName }).ToListAsync(cancellationToken);
        return checks.ConvertAll(c => new CheckMade(c.Check, c.By));
    }

    private async Task<List<Lapse>> LapsesAsync(CancellationToken cancellationToken)
    {
        var flags = await db.ShopFlags.AsNoTracking()
            .Where(f => f.Rule == InstrumentCheckRule.Code && f.RaisedAtUtc < toUtc && (f.GoneAtUtc == null || f.GoneAtUtc >= fromUtc))
            .OrderByDescending(f => f.RaisedAtUtc).ThenBy(f => f.Id)
            .Select(f => new { f.SubjectId, f.RaisedAtUtc, f.GoneAtUtc, f.Answer }).ToListAsync(cancellationToken);
        var lapses = new List<Lapse>();
        foreach (var flag in flags)
        {
            var values = await (
                from measurement in db.Measurements.AsNoTracking()
                join reading in db.Readings on measurement.ReadingId equals reading.Id
                where measurement.InstrumentId == flag.SubjectId && reading.TakenAtUtc >= flag.RaisedAtUtc && (flag.GoneAtUtc == null || reading.TakenAtUtc < flag.GoneAtUtc)
                where !db.Readings.Any(later => later.SupersedesId == reading.Id)
                select measurement.Parameter).CountAsync(cancellationToken);
            lapses.Add(new(flag.SubjectId, flag.RaisedAtUtc, flag.GoneAtUtc, values, flag.Answer ?? ""));
        }

        return lapses;
    }
}
