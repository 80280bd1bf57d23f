using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Core.Readings;

/// <summary>
/// The charge so far, as the rules that look back see it. Two queries, compiled once for each instance, for they run with every stored
/// reading. Not static, because a compiled query belongs to one model and each engine has its own.
/// </summary>
internal sealed class ChargeHistoryQuery
{
    /// <summary>How far the rules look back: more than a year of weekly visits, whatever is measured at each.</summary>
    private const int MostMeasurements = 400;

    private readonly Func<ShopFluidsDbContext, Guid, DateTime, IAsyncEnumerable<Row>> _measurements = EF.CompileAsyncQuery(
        (ShopFluidsDbContext db, Guid chargeId, DateTime before) => db.Readings
            .Where(r => r.ChargeId == chargeId && r.TakenAtUtc < before && !db.Readings.Any(later => later.SupersedesId == r.Id))
            .OrderByDescending(r => r.TakenAtUtc).ThenByDescending(r => r.StoredAtUtc).ThenByDescending(r => r.Id)
            .SelectMany(r => r.Measurements, (r, m) => new Row(r.Id, r.TakenAtUtc, m.Parameter, m.Method, m.Value, m.Uncertainty))
            .Take(MostMeasurements));

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
        var rows = await ListAsync(_measurements(db, charge.Id, takenAtUtc), cancellationToken);
        var readings = rows.Where(r => r.ReadingId != without)
            .GroupBy(r => r.ReadingId)
            .Select(g => new ReadingFacts(g.Key, g.First().TakenAtUtc, [.. g.Select(m => new MeasurementFacts(m.Parameter, m.Method, (decimal)m.Value, (decimal)m.Uncertainty))]))
            .Reverse()
            .ToList();

        // The oldest may have been cut in two.
        readings = rows.Count == MostMeasurements ? readings[1..] : readings;
        if (readings.Count == 0)
        {
            return ChargeHistory.Empty;
        }

        var movements = await ListAsync(_additions(db, charge.Id, readings[0].TakenAt, takenAtUtc), cancellationToken);
        movements.AddRange(await ListAsync(_removals(db, charge.Id, readings[0].TakenAt, takenAtUtc), cancellationToken));
        return new(readings, [.. movements.OrderBy(m => m.At)]);
    }

    private static async Task<List<T>> ListAsync<T>(IAsyncEnumerable<T> rows, CancellationToken cancellationToken)
    {
        var list = new List<T>();
        await foreach (var row in rows.WithCancellation(cancellationToken))
        {
            list.Add(row);
        }

        return list;
    }

    private sealed record Row(Guid ReadingId, DateTime TakenAtUtc, string Parameter, string Method, double Value, double Uncertainty);
}
