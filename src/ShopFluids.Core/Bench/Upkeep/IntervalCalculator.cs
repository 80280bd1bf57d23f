using ShopFluids.Calculations.Upkeep;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Core.Bench.Upkeep;

/// <summary>An interval that follows what was found, see docs/calculations/upkeep.md.</summary>
internal sealed class IntervalCalculator : BenchCalculator
{
    private readonly BenchNumber _last = new("lastDays", () => Texts.Bench_LastInterval, "d", 0.01m, 10_000) { Usual = 14 };
    private readonly BenchNumber _wanted = new("wanted", () => Texts.Bench_FoundWanted, "", 0.000001m, 1_000_000_000) { Usual = 1, Hint = () => Texts.Bench_FoundWantedHint };
    private readonly BenchNumber _found = new("found", () => Texts.Bench_Found, "", 0, 1_000_000_000) { Usual = 2, Hint = () => Texts.Bench_FoundHint };
    private readonly BenchNumber _floor = new("floorDays", () => Texts.Bench_ShortestInterval, "d", 0.01m, 10_000) { Usual = 2 };
    private readonly BenchNumber _ceiling = new("ceilingDays", () => Texts.Bench_LongestInterval, "d", 0.01m, 10_000) { Usual = 30 };
    private readonly BenchNumber _damping = new("dampingPercent", () => Texts.Bench_WayAtOnce, "%", 0, 100) { Usual = 50, Hint = () => Texts.Bench_WayAtOnceHint };
    private readonly BenchOutput _next = new("nextDays", () => Texts.Bench_NextInterval, "d", 1) { IsMain = true };

    public override string Code => "next-interval";

    public override BenchFamily Family => BenchFamily.Upkeep;

    public override string Title => Texts.Bench_Interval;

    public override string Lead => Texts.Bench_IntervalLead;

    public override string Source => Texts.Bench_IntervalSource;

    public override IReadOnlyList<BenchInput> Inputs => [_last, _wanted, _found, _floor, _ceiling, _damping];

    public override IReadOnlyList<BenchOutput> Outputs => [_next];

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var (last, found) = (given[_last], given[_found]);
        var bounds = new IntervalBounds(given[_floor], given[_ceiling], given[_damping] / 100);
        var next = AdaptiveInterval.NextDays(last, given[_wanted], found, bounds);
        var aim = AdaptiveInterval.NextDays(last, given[_wanted], found, new IntervalBounds(given[_floor], given[_ceiling], 1));
        paper.Give(_next, next);
        if (found > 0)
        {
            paper.Step("a = t × W / F", Texts.Bench_IntervalStepAim, last, given[_wanted], found, last * (given[_wanted] / found), given[_floor], given[_ceiling], aim);
        }

        paper.Step("t1 = t + s × (a − t)", Texts.Bench_IntervalStepNext, last, given[_damping], aim, next);
        paper.Find("next", Verdict.NotMeasured, next < last ? Texts.Bench_IntervalSooner : next > last ? Texts.Bench_IntervalLater : Texts.Bench_IntervalSame);
        paper.Picture = new BenchBars("d", [new(Texts.Bench_BarLastInterval, last, 1), new(Texts.Bench_BarNextInterval, next, 1)]);
    }
}
