using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Core.Readings;

/// <summary>
/// The charge so far, as the rules that look back see it. Few queries, compiled once for each instance, for they run with every stored
/// reading. Not static, because a compiled query belongs to one model and each engine has its own.
/// </summary>
internal sealed class ChargeHistoryQuery
{
    /// <summary>How far the rules look back at least, measurements: a year of weekly visits with eight values each.</summary>
    public const int LeastMeasurements = 400;

    // Where more is measured than that, half a year: what is measured once a week among daily values still has 25 of its own.
    public const int LeastDays = 183;

    private readonly Func<ShopFluidsDbContext, Guid, DateTime, Guid, IAsyncEnumerable<PastMeasurement>> _measurements = EF.CompileAsyncQuery(
        (ShopFluidsDbContext db, Guid chargeId, DateTime before, Guid without) => db.Readings
            .Where(r => r.ChargeId == chargeId && r.TakenAtUtc < before && r.Id != without && !db.Readings.Any(later => later.SupersedesId == r.Id))
            .OrderByDescending(r => r.TakenAtUtc).ThenByDescending(r => r.StoredAtUtc).ThenByDescending(r => r.Id)
            .SelectMany(r => r.Measurements, (r, m) => new PastMeasurement(r.Id, r.TakenAtUtc, m.Parameter, m.Method, m.Value, m.Uncertainty))
            .Take(LeastMeasurements));

    private readonly Func<ShopFluidsDbContext, Guid, DateTime, DateTime, Guid, IAsyncEnumerable<PastMeasurement>> _measurementsSince = EF.CompileAsyncQuery(
        (ShopFluidsDbContext db, Guid chargeId, DateTime from, DateTime before, Guid without) => db.Readings
            .Where(r => r.ChargeId == chargeId && r.TakenAtUtc >= from && r.TakenAtUtc < before && r.Id != without && !db.Readings.Any(later => later.SupersedesId == r.Id))
            .OrderByDescending(r => r.TakenAtUtc).ThenByDescending(r => r.StoredAtUtc).ThenByDescending(r => r.Id)
            .SelectMany(r => r.Measurements, (r, m) => new PastMeasurement(r.Id, r.TakenAtUtc, m.Parameter, m.Method, m.Value, m.Uncertainty)));

    private readonly Func<ShopFluidsDbContext, Guid, DateTime, DateTime, IAsyncEnumerable<MovementFacts>> _additions = EF.CompileAsyncQuery(
        (ShopFluidsDbContext db, Guid chargeId, DateTime after, DateTime before) => db.Additions
            .Where(a => a.ChargeId == chargeId && a.AddedAtUtc > after && a.AddedAtUtc <= before)
            .Select(a => new MovementFacts(a.AddedAtUtc, (double)a.WaterLitres, (double)a.ConcentrateLitres, 0)));

    private readonly Func<ShopFluidsDbContext, Guid, DateTime, DateTime, IAsyncEnumerable<MovementFacts>> _removals = EF.CompileAsyncQuery(
        (ShopFluidsDbContext db, Guid chargeId, DateTime after, DateTime before) => db.Removals
            .Where(r => r.ChargeId == chargeId && r.RemovedAtUtc > after && r.RemovedAtUtc <= before)
            .Select(r => new MovementFacts(r.RemovedAtUtc, 0, 0, (double)r.Litres)));

    /// <param name="takenAtUtc">The moment of the reading that is judged; what was read at it or later is not history to it.</param>
    /// <param name="without">A reading that is about to be superseded.</param>
    public async Task<ChargeHistory> RunAsync(ShopFluidsDbContext db, Charge charge, DateTime takenAtUtc, CancellationToken cancellationToken, Guid? without = null)
    {
        var measured = await ListAsync(_measurements(db, charge.Id, takenAtUtc, without ?? Guid.Empty), cancellationToken);
        if (measured.Count == LeastMeasurements && IsWithinDays(measured[^1], takenAtUtc))
        {
            measured = await ListAsync(_measurementsSince(db, charge.Id, takenAtUtc.AddDays(-LeastDays), takenAtUtc, without ?? Guid.Empty), cancellationToken);
        }

        if (measured.Count == 0)
        {
            return ChargeHistory.Empty;
        }

        var since = measured[^1].TakenAtUtc;
        var movements = await ListAsync(_additions(db, charge.Id, since, takenAtUtc), cancellationToken);
        movements.AddRange(await ListAsync(_removals(db, charge.Id, since, takenAtUtc), cancellationToken));
        return Assemble(measured, after => [.. movements.Where(m => m.At > after).OrderBy(m => m.At)]);
    }

    /// <summary>Whether a measurement is among those that the rules look back at.</summary>
    /// <param name="measured">The measurement.</param>
    /// <param name="place">Its place, the newest is 0.</param>
    /// <param name="takenAtUtc">The moment of the reading that is judged.</param>
    public static bool IsLookedAt(PastMeasurement measured, int place, DateTime takenAtUtc) => place < LeastMeasurements || IsWithinDays(measured, takenAtUtc);

    /// <summary>Puts measurements together to readings; the oldest is left out where it may have been cut in two.</summary>
    /// <param name="newestFirst">Those that the rules look back at.</param>
    /// <param name="movementsSince">What was put in and taken out since a moment, oldest first.</param>
    public static ChargeHistory Assemble(IReadOnlyList<PastMeasurement> newestFirst, Func<DateTime, IReadOnlyList<MovementFacts>> movementsSince)
    {
        var readings = newestFirst
            .GroupBy(m => m.ReadingId)
            .Select(g => new ReadingFacts(g.Key, g.First().TakenAtUtc, [.. g.Select(m => new MeasurementFacts(m.Parameter, m.Method, (decimal)m.Value, (decimal)m.Uncertainty))]))
            .Reverse()
            .Skip(newestFirst.Count == LeastMeasurements ? 1 : 0)
            .ToList();
        return readings.Count == 0 ? ChargeHistory.Empty : new(readings, movementsSince(readings[0].TakenAt));
    }

    private static bool IsWithinDays(PastMeasurement measured, DateTime takenAtUtc) => measured.TakenAtUtc >= takenAtUtc.AddDays(-LeastDays);

    private static async Task<List<T>> ListAsync<T>(IAsyncEnumerable<T> rows, CancellationToken cancellationToken)
    {
        var list = new List<T>();
        await foreach (var row in rows.WithCancellation(cancellationToken))
        {
            list.Add(row);
        }

        return list;
    }
}

/// <summary>One measurement of an earlier reading.</summary>
internal sealed record PastMeasurement(Guid ReadingId, DateTime TakenAtUtc, string Parameter, string Method, double Value, double Uncertainty);
