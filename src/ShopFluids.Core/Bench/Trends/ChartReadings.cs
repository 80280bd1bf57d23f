using ShopFluids.Calculations.Charts;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Core.Bench.Trends;

/// <summary>What the charts that remember earlier readings ask for: the readings, and against which centre and spread they are judged.</summary>
internal sealed class ChartReadings(IReadOnlyList<decimal> usual, BenchNumber centre)
{
    private const int MostFilledIn = 60;
    private readonly BenchNumber _sigma = new("sigma", () => Texts.Bench_Sigma, "", 0.000001m, 1_000_000) { IsOptional = true, Hint = () => Texts.Bench_SigmaHint };

    public BenchSeries Values { get; } = new("values", () => Texts.Bench_Values, "", -1_000_000, 1_000_000, 2) { Usual = usual, Hint = () => Texts.Bench_ValuesHint };

    public IReadOnlyList<BenchInput> Fields => [Values, centre, _sigma];

    public void FillIn(BenchSump sump, BenchKnown known)
    {
        var read = sump.Series[ParameterCodes.Concentration].TakeLast(MostFilledIn).Select(r => r.Value).ToList();
        if (read.Count >= Values.LeastCount)
        {
            known.Set(Values, read);
        }
    }

    /// <summary>What was given; else the mean of the readings, and their standard deviation by the moving range.</summary>
    /// <exception cref="ArgumentException">No standard deviation is given, and readings that are all the same have none.</exception>
    public (double Centre, double Sigma) Scale(BenchGiven given, BenchPaper paper)
    {
        var limits = IndividualsChart.Limits(given.Series(Values));
        var sigma = given.Optional(_sigma) ?? limits.Sigma;
        if (sigma <= 0)
        {
            throw new ArgumentException(Texts.Bench_NoSpread, _sigma.Code);
        }

        if (given.Optional(centre) is null)
        {
            paper.Step("m = Σ x / n", Texts.Bench_MeanStep, given.Series(Values).Count, limits.Mean);
        }

        if (given.Optional(_sigma) is null)
        {
            paper.Step("s = MR / 1.128", "s = {0} / 1.128 = {1}", limits.MeanMovingRange, sigma);
        }

        return (given.Optional(centre) ?? limits.Mean, sigma);
    }

    public static BenchCurve Drawn(string name, BenchCurveKind kind, IEnumerable<double> values) => new(name, kind, [.. values.Select((v, i) => (i + 1.0, v))]);

    /// <summary>The points at the given places, ringed; nothing to draw where there are none.</summary>
    public static IEnumerable<BenchCurve> Ringed(IReadOnlyList<int> places, IReadOnlyList<double> values) =>
        places.Count == 0 ? [] : [new BenchCurve("", BenchCurveKind.Rings, [.. places.Select(p => (p + 1.0, values[p]))])];
}
