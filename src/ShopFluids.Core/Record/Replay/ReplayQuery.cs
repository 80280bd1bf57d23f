using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Tuning;
using ShopFluids.Rules;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Record.Replay;

/// <summary>
/// Judges every stored reading again from what was known before it, in the order of the record, and compares with what was answered
/// then; so too the flags of the clock, of lots, stocks and instruments, and those that went to the supervisor. A difference says that the
/// rules, the limits of the past or the set-up are no longer what they were; nothing is changed.
/// </summary>
public sealed class ReplayQuery(ShopDatabase database, SetupCache setups, IDatabaseProvider provider)
{
    public async Task<ReplayReport> RunAsync(CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        await using var moment = await db.Database.BeginTransactionAsync(provider.OneMoment, cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        var order = await RecordOrder.ReadAsync(db, cancellationToken);
        var steps = setup.Plans.SelectMany(p => p.Steps.Select(s => (p.SumpId, Step: s))).ToLookup(s => s.SumpId, s => s.Step);
        var differences = new List<ReplayDifference>();
        var (readings, lateTests) = (0, 0);
        foreach (var sump in await db.Sumps.AsNoTracking().OrderBy(s => s.TagKey).ToListAsync(cancellationToken))
        {
            var replay = new SumpReplay(setup, order, await SumpPast.ReadAsync(db, order, sump, cancellationToken), [.. steps[sump.Id]]);
            readings += replay.JudgeReadings(differences);
            lateTests += replay.NoticeLateTests(differences);
        }

        var (ofTheShop, escalated) = await new ShopReplay(db, differences).RunAsync(cancellationToken);
        return new(readings, lateTests, ofTheShop, escalated, differences);
    }

    private sealed class SumpReplay(ShopSetup setup, RecordOrder order, SumpPast past, IReadOnlyList<CareStep> steps)
    {
        public int JudgeReadings(List<ReplayDifference> differences)
        {
            foreach (var reading in past.Readings)
            {
                if (order.MadeIn<Reading>(reading.Id) is not { } sequence || reading.Outcome is not { } stored)
                {
                    differences.Add(new(past.Sump.Tag, reading.TakenAtUtc, reading.Id, ReplayAspect.NotInRecord, "", "", IsSetupChanged: false));
                    continue;
                }

                var changed = IsSetupChangedAfter(sequence, past.Charges[reading.ChargeId]);
                differences.AddRange(Compare(stored, Judge(reading, sequence))
                    .Where(c => c.Stored != c.Replayed)
                    .Select(c => new ReplayDifference(past.Sump.Tag, reading.TakenAtUtc, reading.Id, c.Aspect, c.Stored, c.Replayed, changed)));
            }

            return past.Readings.Count;
        }

        public int NoticeLateTests(List<ReplayDifference> differences)
        {
            var flags = past.FlagsOfTheClock.ToList();
            foreach (var flag in flags)
            {
                var sequence = order.MadeIn<Flag>(flag.Id) ?? 0;
                var charge = past.Charges[flag.ChargeId];
                var (stored, replayed) = (
                    Text(flag.Rule, flag.Parameter, flag.Severity, flag.Direction, flag.Numbers),
                    Texts(RulesService.EvaluateClock(past.Before(sequence, charge), CalendarBefore(sequence), TuningsBefore(sequence, charge).ByRule, flag.RaisedAtUtc).Where(f => f.Rule == flag.Rule)));
                if (stored != replayed)
                {
                    differences.Add(new(past.Sump.Tag, flag.RaisedAtUtc, null, ReplayAspect.LateTest, stored, replayed, IsSetupChangedAfter(sequence, charge)));
                }
            }

            return flags.Count;
        }

        private ReadingOutcome Judge(Reading reading, long sequence)
        {
            var charge = past.Charges[reading.ChargeId];
            var correction = reading.SupersedesId is null ? null : reading;
            var facts = past.Before(sequence, charge, correction);
            var judge = ReadingJudge.For(setup, past.Sump, charge, reading.TakenAtUtc) with { Steps = [.. steps.Where(s => order.IsOpenBefore<CareStep>(s.Id, sequence))], Calendar = CalendarBefore(sequence), Tunings = TuningsBefore(sequence, charge) };
            var measured = (reading.Outcome?.Measurements ?? [])
                .Select(m => reading.Measurements.FirstOrDefault(r => r.Parameter == m.Parameter && r.Method == m.Method))
                .OfType<Measurement>()
                .Select(m => new Rules.Facts.MeasurementFacts(m.Parameter, m.Method, (decimal)m.Value, (decimal)m.Uncertainty) { Decimals = setup.FindParameter(m.Parameter)?.Decimals ?? 0 });
            var evaluation = judge.Judge(
                new(reading.Id, reading.TakenAtUtc, [.. measured]),
                facts,
                past.HistoryBefore(sequence, reading),
                reading.StoredAtUtc,
                past.LateArrivalsBefore(sequence, reading));
            return ReadingJudge.Outcome(reading.Id, [], evaluation, facts, () => Guid.Empty) with
            {
                Measurements = [.. evaluation.Measurements.Zip(reading.Outcome?.Measurements ?? [], (judged, was) => was with { Verdict = judged.Verdict, Direction = judged.Direction, Limit = judged.Limit, Basis = judged.Basis })],
            };
        }

        private ShopCalendar CalendarBefore(long sequence) => setup.CalendarFor(past.Sump.Id, setup.Shutdowns.Where(s => order.IsMadeBefore<Shutdown>(s.Id, sequence)));

        private TuningsInForce TuningsBefore(long sequence, Charge charge) =>
            ShopSetup.TuningsFor(past.Sump.Id, charge.FluidId, setup.RuleSettings.Where(s => order.IsMadeBefore<RuleSetting>(s.Id, sequence)));

        private bool IsSetupChangedAfter(long sequence, Charge charge) =>
            order.IsChangedAfter<Sump>(past.Sump.Id, sequence)
            || order.IsChangedAfter<Fluid>(charge.FluidId, sequence)
            || setup.MachinesOf(past.Sump).Any(m => order.IsChangedAfter<Machine>(m.Id, sequence))
            || (setup.Site is { } site && order.IsChangedAfter<Site>(site.Id, sequence))
            || setup.Shutdowns.Any(s => order.MadeIn<Shutdown>(s.Id) < sequence && order.IsChangedAfter<Shutdown>(s.Id, sequence));
    }

    private static IEnumerable<(ReplayAspect Aspect, string Stored, string Replayed)> Compare(ReadingOutcome stored, ReadingOutcome replayed)
    {
        yield return (ReplayAspect.Verdicts, Verdicts(stored), Verdicts(replayed));
        yield return (ReplayAspect.FlagsRaised, Texts(stored.Raised), Texts(replayed.Raised));
        yield return (ReplayAspect.FlagsCleared, Texts(stored.Cleared), Texts(replayed.Cleared));
        yield return (ReplayAspect.Recipe, Document(stored.Recipe), Document(replayed.Recipe));
        yield return (ReplayAspect.TasksMade, Texts(stored.Made), Texts(replayed.Made));
        yield return (ReplayAspect.TasksDone, Texts(stored.Done), Texts(replayed.Done));
        yield return (ReplayAspect.TasksWithdrawn, Texts(stored.Withdrawn), Texts(replayed.Withdrawn));
        yield return (ReplayAspect.Cautions, string.Join(", ", stored.Cautions), string.Join(", ", replayed.Cautions));
        yield return (ReplayAspect.NextTest, Document(new { At = stored.NextTestDueAtUtc }), Document(new { At = replayed.NextTestDueAtUtc }));
    }

    private static string Verdicts(ReadingOutcome outcome) =>
        string.Join(", ", outcome.Measurements.Select(m => $"{m.Parameter} {m.Verdict} {m.Direction} {Document(new { m.Limit })}").Prepend($"{outcome.Verdict}"));

    private static string Texts(IEnumerable<FlagOutcome> flags) => Joined(flags.Select(f => Text(f.Rule, f.Parameter, f.Severity, f.Direction, f.Numbers)));

    private static string Texts(IEnumerable<RaisedFlag> flags) => Joined(flags.Select(f => Text(f.Rule, f.Parameter, f.Severity, f.Direction, f.Numbers)));

    private static string Texts(IEnumerable<TaskOutcome> tasks) => Joined(tasks.Select(t => $"{t.Kind} {t.Cause} {Document(new { t.DueAtUtc })}"));

    private static string Text(string rule, string parameter, Verdict severity, Direction direction, IReadOnlyDictionary<string, decimal> numbers) =>
        $"{rule}:{parameter} {severity} {direction} {Document(numbers.OrderBy(n => n.Key, StringComparer.Ordinal).ToDictionary())}";

    private static string Joined(IEnumerable<string> texts) => string.Join(", ", texts.Order(StringComparer.Ordinal));

    private static string Document<T>(T value) => JsonColumn.Write(value);
}
