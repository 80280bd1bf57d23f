using ShopFluids.Calculations.Costs;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Bench.Costs;

/// <summary>Whether another day of a charge is worth its money, see docs/calculations/costs.md.</summary>
internal sealed class DrainOrKeepCalculator : BenchCalculator
{
    private const string No = "no";
    private const string Yes = "yes";
    private const int Points = 120;
    private const decimal MostShown = 4;

    private readonly BenchNumber _refill = new("refillCost", () => Texts.Bench_RefillCost, "", 0, 1_000_000) { Usual = 500 };
    private readonly BenchNumber _first = new("firstDayCost", () => Texts.Bench_CareFirstDay, "", 0, 100_000) { Usual = 0.1m, Hint = () => Texts.Bench_CareHint };
    private readonly BenchNumber _rise = new("risePerDay", () => Texts.Bench_CareRise, "", 0, 1000) { Usual = 0.1m };
    private readonly BenchNumber _age = new("ageDays", () => Texts.Bench_AgeNow, "d", 1, 10_000) { Usual = 60 };
    private readonly BenchNumber _ahead = new("forecastDays", () => Texts.Bench_LookAhead, "d", 2, 10_000) { Usual = 365 };
    private readonly BenchChoice _condition = new("conditionSaysDrain", () => Texts.Bench_ConditionSaysDrain, [new(No, () => Texts.Bench_No), new(Yes, () => Texts.Bench_Yes)]) { Hint = () => Texts.Bench_ConditionHint };
    private readonly BenchOutput _best = new("bestDays", () => Texts.Bench_BestAge, "d", 0) { IsMain = true };
    private readonly BenchOutput _least = new("leastCostPerDay", () => Texts.Bench_LeastPerDay, "", 2) { IsMain = true };
    private readonly BenchOutput _next = new("nextDayCost", () => Texts.Bench_NextDayCost, "", 2);

    public override string Code => "drain-or-keep";

    public override BenchFamily Family => BenchFamily.Upkeep;

    public override string Title => Texts.Bench_DrainOrKeep;

    public override string Lead => Texts.Bench_DrainOrKeepLead;

    public override string Source => Texts.Bench_DrainOrKeepSource;

    public override IReadOnlyList<Caution> Cautions => [Caution.RegulatedWaste];

    public override IReadOnlyList<BenchInput> Inputs => [_refill, _first, _rise, _age, _ahead, _condition];

    public override IReadOnlyList<BenchOutput> Outputs => [_best, _least, _next];

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var (days, age) = (given.Whole(_ahead), given.Whole(_age));
        decimal CareOn(int day) => given.Exact(_first) + (given.Exact(_rise) * (day - 1));
        IReadOnlyList<decimal> care = [.. Enumerable.Range(1, days).Select(CareOn)];
        var life = EconomicLife.Of(given.Exact(_refill), care);
        var next = CareOn(age + 1);
        paper.Give(_best, life.BestDays);
        paper.Give(_least, (double)life.LeastAveragePerDay);
        paper.Give(_next, (double)next);
        var spent = care.Take(life.BestDays).Sum();
        paper.Step("A(T) = (F + c1 + … + cT) / T", "A({0}) = ({1} + {2}) / {0} = {3}", life.BestDays, given[_refill], (double)spent, (double)life.LeastAveragePerDay);
        paper.Step("c(t + 1) = c1 + t × r", "c({0}) = {1} + {2} × {3} = {4}", age + 1, given[_first], age, given[_rise], (double)next);
        var (verdict, sentence) = life.Decide(next, given.Choice(_condition) == Yes) switch
        {
            ChargeDecision.Keep => (Verdict.InRange, Texts.Bench_KeepIt),
            ChargeDecision.Drain => (Verdict.Warning, Texts.Bench_DrainForMoney),
            _ => (Verdict.Action, Texts.Bench_DrainForCondition),
        };
        paper.Find("decision", verdict, sentence);
        if (life.IsStillFalling)
        {
            paper.Find("beyond", Verdict.NotMeasured, Texts.Bench_StillFalling);
        }

        paper.Picture = Draw(given, care, life);
    }

    private BenchCurves Draw(BenchGiven given, IReadOnlyList<decimal> care, EconomicLife life)
    {
        var average = EconomicLife.AverageByDay(given.Exact(_refill), care);

        // The first days carry the whole refill and would press the rest flat.
        var shown = Enumerable.Range(1, care.Count).Where(d => average[d - 1] <= MostShown * life.LeastAveragePerDay || d == life.BestDays).ToList();
        var each = Math.Max(1, shown.Count / Points);
        var days = shown.Where((_, i) => i % each == 0 || i == shown.Count - 1).ToList();
        return new BenchCurves(
            Texts.Bench_AxisAge,
            Texts.Bench_AxisCostPerDay,
            [
                new BenchCurve(Texts.Bench_CurveAverage, BenchCurveKind.Line, [.. days.Select(d => ((double)d, (double)average[d - 1]))]),
                new BenchCurve(Texts.Bench_CurveCare, BenchCurveKind.Dashed, [.. days.Select(d => ((double)d, (double)care[d - 1]))]),
                new BenchCurve("", BenchCurveKind.Points, [(life.BestDays, (double)life.LeastAveragePerDay)]),
            ],
            []);
    }
}
