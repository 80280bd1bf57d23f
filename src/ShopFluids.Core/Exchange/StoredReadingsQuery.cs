using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;

namespace ShopFluids.Core.Exchange;

/// <param name="SupersededById">The reading that corrected it.</param>
public sealed record StoredReading(
    Guid Id,
    DateTime TakenAtUtc,
    DateTime StoredAtUtc,
    string Person,
    string Note,
    Verdict Verdict,
    Guid? SupersedesId,
    string? CorrectionReason,
    Guid? SupersededById,
    IReadOnlyList<StoredMeasurement> Measurements);

public sealed record StoredMeasurement(
    string Parameter,
    string Method,
    decimal RawValue,
    string RawUnit,
    decimal? TemperatureCelsius,
    double Value,
    double Uncertainty,
    Verdict Verdict,
    Direction Direction);

/// <summary>The readings of one sump, newest first.</summary>
public sealed class StoredReadingsQuery(ShopDatabase database, SetupCache setups)
{
    /// <param name="from">From this instant on; null from the first.</param>
    /// <param name="to">Before this instant; null to the last.</param>
    /// <param name="after">Where the part before ended.</param>
    /// <returns>Null when there is no such sump.</returns>
    public async Task<ListPage<StoredReading>?> RunAsync(string tag, DateTime? from, DateTime? to, ListPlace? after, int limit, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        if (setup.FindSump(tag) is not { } sump)
        {
            return null;
        }

        var readings = db.Readings.AsNoTracking().Where(r => r.SumpId == sump.Id && (from == null || r.TakenAtUtc >= from) && (to == null || r.TakenAtUtc < to));
        if (after is not null)
        {
            readings = readings.Where(r => r.TakenAtUtc < after.AtUtc || (r.TakenAtUtc == after.AtUtc && r.Id.CompareTo(after.Id) < 0));
        }

        var rows = await readings.OrderByDescending(r => r.TakenAtUtc).ThenByDescending(r => r.Id).Take(limit + 1)
            .Select(r => new StoredReading(
                r.Id,
                r.TakenAtUtc,
                r.StoredAtUtc,
                db.Users.Where(p => p.Id == r.PersonId).Select(p => p.DisplayName).FirstOrDefault() ?? "",
                r.Note,
                r.Verdict,
                r.SupersedesId,
                r.CorrectionReason,
                db.Readings.Where(c => c.SupersedesId == r.Id).Select(c => (Guid?)c.Id).FirstOrDefault(),
                r.Measurements.OrderBy(m => m.Parameter).ThenBy(m => m.Method)
                    .Select(m => new StoredMeasurement(m.Parameter, m.Method, m.RawValue, m.RawUnit, m.TemperatureCelsius, m.Value, m.Uncertainty, m.Verdict, m.Direction)).ToList()))
            .AsSplitQuery()
            .ToListAsync(cancellationToken);
        return ListPlace.Cut(rows, limit, r => new ListPlace(r.TakenAtUtc, r.Id));
    }

    /// <summary>What a stored reading led to, as it was answered when it was stored.</summary>
    /// <returns>Null when there is no such reading.</returns>
    public async Task<StoredOutcome?> OneAsync(Guid id, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        var row = await db.Readings.AsNoTracking().Where(r => r.Id == id).Select(r => new { r.SumpId, r.Outcome }).SingleOrDefaultAsync(cancellationToken);
        return row?.Outcome is { } outcome && setup.FindSump(row.SumpId) is { } sump ? new StoredOutcome(sump.Tag, outcome) : null;
    }
}

public sealed record StoredOutcome(string SumpTag, ReadingOutcome Outcome);
