using ShopFluids.Calculations.Concentrations;
using ShopFluids.Calculations.Uncertainties;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Core.Bench.Concentrations;

/// <summary>Refractometer against titration, see docs/calculations/concentration.md.</summary>
internal sealed class MethodsCalculator : BenchCalculator
{
    private readonly BenchNumber _refractometer = new("refractometerPercent", () => Texts.Bench_ByRefractometer, "%", 0, 100) { Usual = 9 };
    private readonly BenchNumber _refractometerU = new("refractometerUncertaintyPercent", () => Texts.Bench_GiveOrTake, "%", 0, 50) { Usual = 0.4m };
    private readonly BenchNumber _titration = new("titrationPercent", () => Texts.Bench_TitratedPercent, "%", 0.01m, 100) { Usual = 7.5m };
    private readonly BenchNumber _titrationU = new("titrationUncertaintyPercent", () => Texts.Bench_GiveOrTake, "%", 0, 50) { Usual = 0.3m };
    private readonly BenchNumber _earlier = new("earlierRatio", () => Texts.Bench_EarlierRatio, "", 0, 10_000) { Usual = 1.05m, IsOptional = true, Hint = () => Texts.Bench_EarlierRatioHint };
    private readonly BenchNumber _earlierU = new("earlierRatioUncertainty", () => Texts.Bench_GiveOrTake, "", 0, 10_000) { Usual = 0.05m };
    private readonly BenchOutput _ratio = new("ratio", () => Texts.Bench_MethodRatio, "", 2) { IsMain = true };
    private readonly BenchOutput _drift = new("drift", () => Texts.Bench_MethodDrift, "", 2);

    public override string Code => "two-methods";

    public override BenchFamily Family => BenchFamily.Concentration;

    public override string Title => Texts.Bench_Methods;

    public override string Lead => Texts.Bench_MethodsLead;

    public override string Source => Texts.Bench_MethodsSource;

    public override IReadOnlyList<BenchInput> Inputs => [_refractometer, _refractometerU, _titration, _titrationU, _earlier, _earlierU];

    public override IReadOnlyList<BenchOutput> Outputs => [_ratio, _drift];

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var compared = MethodDisagreement.Compare(new Estimate(given[_refractometer], given[_refractometerU]), new Estimate(given[_titration], given[_titrationU]));
        paper.Give(_ratio, compared.Ratio);
        paper.Step("q = r / t", "q = {0} / {1} = {2}", given[_refractometer], given[_titration], compared.Ratio.Value);
        paper.Step(
            "U(q) = √((U(r) / t)² + (r × U(t) / t²)²)",
            "U(q) = √(({1} / {2})² + ({0} × {3} / {2}²)²) = {4}",
            given[_refractometer],
            given[_refractometerU],
            given[_titration],
            given[_titrationU],
            compared.Ratio.ExpandedUncertainty);
        paper.Find("now", compared.Finding == MethodFinding.None ? Verdict.InRange : Verdict.Warning, compared.Finding switch
        {
            MethodFinding.RefractometerHigh => Texts.Bench_RefractometerHigh,
            MethodFinding.TitrationHigh => Texts.Bench_TitrationHigh,
            _ => Texts.Bench_MethodsAgree,
        });
        if (given.Optional(_earlier) is { } earlier)
        {
            var (change, finding) = MethodDisagreement.Drift(new Estimate(earlier, given[_earlierU]), compared.Ratio);
            paper.Give(_drift, change);
            paper.Step("d = q − q0", "d = {0} − {1} = {2}", compared.Ratio.Value, earlier, change.Value);
            paper.Find("drift", finding == MethodFinding.None ? Verdict.InRange : Verdict.Warning, finding switch
            {
                MethodFinding.RefractometerHigh => Texts.Bench_DriftUp,
                MethodFinding.TitrationHigh => Texts.Bench_DriftDown,
                _ => Texts.Bench_DriftNone,
            });
        }

        paper.Picture = new BenchBars("%", [new(Texts.Bench_ByRefractometer, given[_refractometer], 1), new(Texts.Bench_TitratedPercent, given[_titration], 1)]);
    }
}
