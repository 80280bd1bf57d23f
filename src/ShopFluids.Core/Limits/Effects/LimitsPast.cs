using ShopFluids.Core.Charges;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sheets;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Judging;

namespace ShopFluids.Core.Limits.Effects;

/// <summary>
/// The readings that limits are tried on. It is read once, and judged again with every change of the draft; judging is that of the rules.
/// </summary>
public sealed class LimitsPast
{
    private readonly ShopSetup _setup;
    private readonly Guid? _fluidId;
    private readonly Guid? _sumpId;
    private readonly IReadOnlyList<PastReading> _readings;
    private readonly SumpPast? _sump;

    internal LimitsPast(ShopSetup setup, Guid? fluidId, Guid? sumpId, DateTime fromUtc, DateTime toUtc, IReadOnlyList<PastReading> readings, SumpPast? sump)
    {
        (_setup, _fluidId, _sumpId, _readings, _sump) = (setup, fluidId, sumpId, readings, sump);
        (FromUtc, ToUtc) = (fromUtc, toUtc);
    }

    public DateTime FromUtc { get; }

    public DateTime ToUtc { get; }

    public LimitsEffect Under(IReadOnlyList<ParameterLimits> drafted)
    {
        ArgumentNullException.ThrowIfNull(drafted);
        var pairs = new PairOfLimits(this, drafted);
        var judged = _readings.Select(r => (Reading: r, Now: Judge(r, pairs.Now(r)), Then: Judge(r, pairs.Then(r)))).ToList();
        var order = _setup.Sumps.Select((s, n) => (s.Id, n)).ToDictionary(s => s.Id, s => s.n);
        return new(
            _readings.Count,
            [.. _setup.Parameters.Select(p => OfParameter(p.Code, judged.Select(j => (j.Reading, j.Now, j.Then)))).OfType<ParameterEffect>()],
            [.. judged.GroupBy(j => j.Reading.SumpId).OrderBy(g => order.GetValueOrDefault(g.Key)).Select(g => new SumpEffect(
                _setup.FindSump(g.Key)?.Tag ?? "",
                g.Count(),
                g.Count(j => j.Then.Worst > j.Now.Worst),
                g.Count(j => j.Then.Worst < j.Now.Worst)))]);
    }

    /// <summary>Of the one sump, each parameter that is drafted otherwise than it is set: with the limits as set, then as drafted. Null where there is none.</summary>
    public HistorySheetTrends? Trends(IReadOnlyList<ParameterLimits> drafted, Sentences say)
    {
        ArgumentNullException.ThrowIfNull(drafted);
        ArgumentNullException.ThrowIfNull(say);
        if (_sump is not { } sump)
        {
            return null;
        }

        var pairs = new PairOfLimits(this, drafted);
        var changed = _setup.Parameters.Where(p => sump.Charges.Any(c => pairs.Now(c.FluidId).ValueLimits(p.Code) != pairs.Then(c.FluidId).ValueLimits(p.Code))).Select(p => p.Code).ToHashSet(StringComparer.Ordinal);
        var (now, then) = (Charts(sump, pairs.Now, pairs.Now, changed, say), Charts(sump, pairs.Then, pairs.Then, changed, say));
        return now.Charts.Count == 0 ? null : now with
        {
            Charts = [.. now.Charts.Zip(then.Charts).SelectMany(c => new[] { Titled(c.First, Texts.Setup_EffectChartNow, say), Titled(c.Second, Texts.Setup_EffectChartThen, say) })],
        };
    }

    private HistorySheetTrends Charts(SumpPast sump, Func<PastReading, LimitsInForce> ofReading, Func<Guid, LimitsInForce> ofFluid, HashSet<string> parameters, Sentences say)
    {
        var judged = _readings.ToDictionary(r => r.Facts.Id, r => Judge(r, ofReading(r)).ByMeasurement);
        var stretches = sump.Charges.Select(c => new LimitStretch(c.FilledAtUtc > FromUtc ? c.FilledAtUtc : FromUtc, c.DrainedAtUtc ?? ToUtc, ofFluid(c.FluidId))).ToList();
        return new TrendBuilder(_setup, sump.Sump, say).Build(Judged(sump.History, judged), stretches, FromUtc, ToUtc, null, parameters);
    }

    private static Trend Titled(Trend chart, string pattern, Sentences say) => chart with { Title = say.Format.Say(pattern, chart.Title) };

    private static JudgedReading Judge(PastReading reading, LimitsInForce limits)
    {
        var judged = reading.Facts.Measurements.Select(m => MeasurementJudge.Judge(m, limits.Limits, reading.FirstFillPh)).ToList();
        return new(MeasurementJudge.Worst(judged), judged.ToDictionary(j => (j.Parameter, j.Method), j => (j.Verdict, j.Direction)));
    }

    private static ParameterEffect? OfParameter(string parameter, IEnumerable<(PastReading Reading, JudgedReading Now, JudgedReading Then)> judged)
    {
        // Of two methods in one reading the one that decides.
        var verdicts = judged
            .Select(j => (Measured: j.Reading.Facts.Decisive(parameter), j.Now, j.Then))
            .SelectMany(j => j.Measured is { } m ? new[] { (Now: j.Now.Of(m), Then: j.Then.Of(m)) } : [])
            .ToList();
        return verdicts.TrueForAll(v => v is { Now: Verdict.NotMeasured, Then: Verdict.NotMeasured })
            ? null
            : new(parameter, VerdictCounts.Of([.. verdicts.Select(v => v.Now)]), VerdictCounts.Of([.. verdicts.Select(v => v.Then)]), verdicts.Count(v => v.Now != v.Then));
    }

    private static SumpHistory Judged(SumpHistory history, Dictionary<Guid, IReadOnlyDictionary<(string, string), (Verdict Verdict, Direction Direction)>> judged) => history with
    {
        Readings = [.. history.Readings.Select(r => judged.TryGetValue(r.Id, out var verdicts)
            ? r with { Measurements = [.. r.Measurements.Select(m => m with { Verdict = verdicts[(m.Parameter, m.Method)].Verdict, Direction = verdicts[(m.Parameter, m.Method)].Direction })] }
            : r)],
    };

    private sealed record JudgedReading(Verdict Worst, IReadOnlyDictionary<(string Parameter, string Method), (Verdict Verdict, Direction Direction)> ByMeasurement)
    {
        public Verdict Of(MeasurementFacts measured) => ByMeasurement[(measured.Parameter, measured.Method)].Verdict;
    }

    // What judges a sump with a fluid: as it is set, and with the draft in the place of the set that is being changed.
    private sealed class PairOfLimits(LimitsPast past, IReadOnlyList<ParameterLimits> drafted)
    {
        private readonly Dictionary<(Guid, Guid), LimitsInForce> _now = [];
        private readonly Dictionary<(Guid, Guid), LimitsInForce> _then = [];
        private readonly LimitSet _draft = new(Guid.Empty, past._fluidId, past._sumpId, 0, past.ToUtc, drafted);

        public LimitsInForce Now(PastReading reading) => Now(reading.SumpId, reading.FluidId);

        public LimitsInForce Then(PastReading reading) => Then(reading.SumpId, reading.FluidId);

        public LimitsInForce Now(Guid fluidId) => Now(past._sumpId.GetValueOrDefault(), fluidId);

        public LimitsInForce Then(Guid fluidId) => Then(past._sumpId.GetValueOrDefault(), fluidId);

        private LimitsInForce Now(Guid sumpId, Guid fluidId) => Kept(_now, sumpId, fluidId, () => past._setup.LimitsAt(sumpId, fluidId, past.ToUtc));

        private LimitsInForce Then(Guid sumpId, Guid fluidId)
        {
            var now = Now(sumpId, fluidId);
            return Kept(_then, sumpId, fluidId, () => past._sumpId is null ? new(now.OfSump, _draft) : new(_draft, now.OfFluid));
        }

        private static LimitsInForce Kept(Dictionary<(Guid, Guid), LimitsInForce> known, Guid sumpId, Guid fluidId, Func<LimitsInForce> make)
        {
            if (!known.TryGetValue((sumpId, fluidId), out var limits))
            {
                known.Add((sumpId, fluidId), limits = make());
            }

            return limits;
        }
    }
}

/// <summary>A reading that counts.</summary>
/// <param name="FirstFillPh">The pH from which the fall of its charge is reckoned, known before it was taken.</param>
internal sealed record PastReading(Guid SumpId, Guid FluidId, ReadingFacts Facts, decimal? FirstFillPh);

/// <summary>What the charts of one sump are drawn from.</summary>
internal sealed record SumpPast(Sump Sump, SumpHistory History, IReadOnlyList<Charge> Charges);
