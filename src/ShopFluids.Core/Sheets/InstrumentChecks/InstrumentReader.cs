using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.Record;
using ShopFluids.Core.Record.Trail;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.InstrumentCheck;

namespace ShopFluids.Core.Sheets.InstrumentChecks;

/// <param name="CheckedOn">The day of the check.</param>
internal sealed record NotedCheck(string Tag, DateOnly CheckedOn, DateTime NotedAtUtc, string By);

/// <param name="UntilUtc">Null while it lasts.</param>
/// <param name="Values">Read with it meanwhile, in the readings that count.</param>
internal sealed record Lapse(Guid InstrumentId, DateTime FromUtc, DateTime? UntilUtc, int Values, string Answer);

internal sealed record InstrumentFactsRead(IReadOnlyList<Instrument> Instruments, IReadOnlyList<NotedCheck> Checks, IReadOnlyList<Lapse> Lapses);

/// <summary>The instrument itself keeps its last check only: those before are in the record.</summary>
internal sealed class InstrumentReader(ShopFluidsDbContext db, DateTime fromUtc, DateTime toUtc)
{
    public async Task<InstrumentFactsRead> ReadAsync(CancellationToken cancellationToken) => new(
        await db.Instruments.AsNoTracking().OrderBy(i => i.TagKey).ToListAsync(cancellationToken),
        await ChecksAsync(cancellationToken),
        await LapsesAsync(cancellationToken));

    private async Task<List<NotedCheck>> ChecksAsync(CancellationToken cancellationToken)
    {
        var entries = await db.RecordEntries.AsNoTracking()
            .Where(e => e.Code == ActCodes.InstrumentChecked && e.AtUtc >= fromUtc && e.AtUtc < toUtc)
            .OrderByDescending(e => e.Sequence)
            .Select(e => new { e.AtUtc, e.Subject, e.ActorName, e.Changes }).ToListAsync(cancellationToken);
        return [.. entries.SelectMany(e => DayOf(e.Changes) is { } day ? new[] { new NotedCheck(e.Subject, day, e.AtUtc, e.ActorName) } : [])];
    }

    private static DateOnly? DayOf(string changes) =>
        (RowChange.Read(changes) ?? []).Where(r => r.Entity == nameof(Instrument)).SelectMany(r => r.Cells)
            .Where(c => c.Column == nameof(Instrument.CheckedOn)).Select(c => DayInput.TryRead(c.After, out var day) ? day : (DateOnly?)null).FirstOrDefault();

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
