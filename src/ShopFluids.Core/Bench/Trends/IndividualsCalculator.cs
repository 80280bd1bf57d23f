using ShopFluids.Calculations.Charts;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Core.Bench.Trends;

/// <summary>Whether a row of readings varies by chance alone, see docs/calculations/statistics.md.</summary>
internal sealed class IndividualsCalculator : BenchCalculator
{
    private const int MostDrawn = 60;

    private readonly BenchSeries _values = new("values", () => Texts.Bench_Values, "", -1_000_000, 1_000_000, 2)
    {
        Usual = [8.1m, 8.0m, 8.2m, 7.9m, 8.1m, 8.0m, 8.3m, 8.1m, 7.9m, 8.0m, 8.2m, 9.1m],
        Hint = () => Texts.Bench_ValuesHint,
    };

    private readonly BenchOutput _mean = new("mean", () => Texts.Bench_Mean, "", 2) { IsMain = true };
    private readonly BenchOutput _lower = new("lowerAction", () => Texts.Bench_LowerAction, "", 2);
    private readonly BenchOutput _upper = new("upperAction", () => Texts.Bench_UpperAction, "", 2);
    private readonly BenchOutput _sigma = new("sigma", () => Texts.Bench_Sigma, "", 3);

    public override string Code => "individuals-chart";

    public override BenchFamily Family => BenchFamily.Trend;

    public override string Title => Texts.Bench_Individuals;

    public override string Lead => Texts.Bench_IndividualsLead;

    public override string Source => Texts.Bench_IndividualsSource;

    public override IReadOnlyList<BenchInput> Inputs => [_values];

    public override IReadOnlyList<BenchOutput> Outputs => [_mean, _lower, _upper, _sigma];

    public override bool UsesSump => true;

    protected override void FillIn(BenchSump sump, BenchKnown known)
    {
        var read = sump.Series[ParameterCodes.Concentration].TakeLast(MostDrawn).Select(r => r.Value).ToList();
        if (read.Count >= _values.LeastCount)
        {
            known.Set(_values, read);
        }
    }

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var values = given.Series(_values);
        var limits = IndividualsChart.Limits(values);
        paper.Give(_mean, limits.Mean);
        paper.Give(_lower, limits.LowerAction);
        paper.Give(_upper, limits.UpperAction);
        paper.Give(_sigma, limits.Sigma);
        paper.Step("s = MR / 1.128", "s = {0} / 1.128 = {1}", limits.MeanMovingRange, limits.Sigma);
        paper.Step("m ± 3 × s", "{0} ± 3 × {1}: {2}; {3}", limits.Mean, limits.Sigma, limits.LowerAction, limits.UpperAction);
        Say(values, limits, paper);
        paper.Picture = new BenchCurves(
            Texts.Bench_AxisReadings,
            Texts.Bench_AxisValue,
            [
                new BenchCurve("", BenchCurveKind.Line, [.. values.Select((v, i) => (i + 1.0, v))]),
                new BenchCurve("", BenchCurveKind.Points, [.. values.Select((v, i) => (i + 1.0, v))]),
                .. ChartReadings.Ringed([.. Enumerable.Range(0, values.Count).Where(i => limits.IsBeyondAction(values[i]))], values),
            ],
            [new BenchLevel(Texts.Bench_UpperAction, limits.UpperAction), new BenchLevel(Texts.Bench_Mean, limits.Mean), new BenchLevel(Texts.Bench_LowerAction, limits.LowerAction)]);
    }

    private static void Say(IReadOnlyList<double> values, IndividualsLimits limits, BenchPaper paper)
    {
        var signals = RunRules.Find(values, limits.Mean, limits.Sigma, RunRules.WesternElectric);
        if (signals.Count == 0)
        {
            paper.Find("chance", Verdict.InRange, Texts.Bench_IndividualsChance);
            return;
        }

        foreach (var rule in signals.GroupBy(s => s.Rule))
        {
            var places = string.Join(", ", rule.Select(s => paper.Format.Count(s.Place + 1)));
            paper.Find(rule.Key.ToString(), Verdict.Warning, paper.Format.Say(Pattern(rule.Key), places));
        }
    }

    private static string Pattern(RunRule rule) => rule switch
    {
        RunRule.OneBeyondThreeSigma => Texts.Bench_RuleOneBeyond,
        RunRule.TwoOfThreeBeyondTwoSigma => Texts.Bench_RuleTwoOfThree,
        RunRule.FourOfFiveBeyondOneSigma => Texts.Bench_RuleFourOfFive,
        RunRule.EightOnOneSide => Texts.Bench_RuleEight,
        _ => throw new ArgumentOutOfRangeException(nameof(rule), rule, "The bench does not look for this pattern."),
    };
}
