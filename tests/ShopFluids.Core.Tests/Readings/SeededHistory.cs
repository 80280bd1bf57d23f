using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Readings;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Readings;

/// <summary>Sumps to which the same history is written down in other ways, and what is open of each in the end.</summary>
internal static class SeededHistory
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public static async Task<(string Tag, Guid Id)> SumpAsync(ShopFixture shop, int number)
    {
        var tag = string.Create(CultureInfo.InvariantCulture, $"T-{number}");
        var id = await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, tag, $"M-T{number}", shop.WaterId, walkOrder: 20 + number));
        (await shop.FillAsync(Some.Fill(Some.Id(), shop.FluidId, shop.LotId, tag))).Done();
        await shop.StepAsync(Some.Step(TaskKind.Test, tag));
        await shop.StepAsync(Some.Step(TaskKind.Test, tag, IntervalBasis.FromLastDone, 3, parameters: [ParameterCodes.TrampOil]));
        await shop.StepAsync(Some.Step(TaskKind.Inspect, tag, IntervalBasis.AfterFlag, 1));
        return (tag, id);
    }

    // The first visit brings the pH from which the fall is reckoned; values wander about the limits.
    public static List<RecordReading> Of(Random random, int visits)
    {
        var (readings, takenAt) = (new List<RecordReading>(), Some.Start);
        for (var visit = 0; visit < visits; visit++)
        {
            takenAt = takenAt.AddHours(random.Next(5, 90));
            var reading = Some.Reading(
                brix: visit % 4 == 3 ? null : 5.5m + (random.Next(0, 40) / 10m),
                ph: visit % 3 == 2 ? null : 8.2m + (random.Next(0, 12) / 10m),
                levelMm: random.Next(90, 330),
                takenAt: takenAt);
            readings.Add(random.Next(2) == 0 ? reading : reading with { Measurements = [.. reading.Measurements, Some.Typed(ParameterCodes.TrampOil, random.Next(0, 40))] });
        }

        return readings;
    }

    // Work for a flag is due so long after it was asked for, which is when the reading arrived.
    public static async Task<string> StateAsync(ShopFixture shop, Guid sumpId, bool withDueDays = true)
    {
        var steps = (await shop.SetupAsync()).StepsOf(sumpId).OrderBy(s => s.Kind).ThenBy(s => s.IntervalDays).Select((s, n) => (Cause: CareStep.CauseOf(s.Id), Name: $"step {n}")).ToDictionary(s => s.Cause, s => s.Name);
        var flags = await shop.ReadAsync(db => db.Flags.Where(f => f.SumpId == sumpId && f.EndedAtUtc == null).ToListAsync(Stop));
        var tasks = await shop.ReadAsync(db => db.CareTasks.Where(t => t.SumpId == sumpId && t.State == TaskState.Open).ToListAsync(Stop));
        var standing = await shop.ReadAsync(db => db.Standings.SingleAsync(s => s.SumpId == sumpId, Stop));
        return string.Join('\n', flags.Select(f => $"flag {f.Rule}:{f.Parameter} {f.Severity} {f.Direction}")
            .Concat(tasks.Select(t => $"task {t.Kind} {steps.GetValueOrDefault(t.Cause, t.Cause)} {(t.StepId is null || !withDueDays ? "" : $"{t.DueAtUtc:u}")}"))
            .Concat((standing.Facts?.Latest ?? new Dictionary<string, LatestValue>()).Select(l => string.Create(CultureInfo.InvariantCulture, $"latest {l.Key} {l.Value.Value:0.###} {l.Value.TakenAt:u} {l.Value.Verdict} {l.Value.Direction}")))
            .Order(StringComparer.Ordinal)
            .Append(string.Create(CultureInfo.InvariantCulture, $"{standing.Verdict} {standing.Direction} {standing.VolumeLitres} {standing.OpenFlagCount} {standing.LastReadAtUtc:u}")));
    }
}
