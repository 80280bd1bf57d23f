using ShopFluids.Calculations.Skimming;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Bench.Skimming;

/// <summary>Hours a day that a skimmer has to run, see docs/calculations/skimming.md.</summary>
internal sealed class SkimmerCalculator : BenchCalculator
{
    private readonly BenchNumber _wayOil = new("wayOilLitresPerDay", () => Texts.Bench_WayOil, "L/day", 0, 10_000) { Usual = 0.8m, Hint = () => Texts.Bench_WayOilHint };
    private readonly BenchNumber _reaching = new("reachingPercent", () => Texts.Bench_OilReaching, "%", 0, 100) { Usual = 75, Hint = () => Texts.Bench_OilReachingHint };
    private readonly BenchNumber _emulsified = new("emulsifiedPercent", () => Texts.Bench_OilWorkedIn, "%", 0, 100) { Usual = 20, Hint = () => Texts.Bench_OilWorkedInHint };
    private readonly BenchNumber _skimmer = new("skimmerLitresPerHour", () => Texts.Bench_SkimmerTakes, "L/h", 0.0001m, 100_000) { Usual = 0.1m, Hint = () => Texts.Bench_SkimmerTakesHint };
    private readonly BenchOutput _hours = new("hoursPerDay", () => Texts.Bench_HoursPerDay, "h", 1) { IsMain = true };
    private readonly BenchOutput _oil = new("oilLitresPerDay", () => Texts.Bench_OilRising, "L/day", 2);
    private readonly BenchOutput _stays = new("emulsifiedLitresPerDay", () => Texts.Bench_OilStaying, "L/day", 2);

    public override string Code => "skimmer";

    public override BenchFamily Family => BenchFamily.Upkeep;

    public override string Title => Texts.Bench_Skimmer;

    public override string Lead => Texts.Bench_SkimmerLead;

    public override string Source => Texts.Bench_SkimmerSource;

    public override IReadOnlyList<Caution> Cautions => [Caution.LockOut, Caution.ResidualCurrent, Caution.RegulatedWaste];

    public override IReadOnlyList<BenchInput> Inputs => [_wayOil, _reaching, _emulsified, _skimmer];

    public override IReadOnlyList<BenchOutput> Outputs => [_hours, _oil, _stays];

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var duty = SkimmerDuty.FromWayOil(given[_wayOil], given[_reaching] / 100, given[_emulsified] / 100, given[_skimmer]);
        paper.Give(_hours, duty.HoursPerDay);
        paper.Give(_oil, duty.OilLitresPerDay);
        paper.Give(_stays, duty.EmulsifiedLitresPerDay);
        paper.Step("o × s × (1 − e)", "{0} × {1} % × (1 − {2} %) = {3} L/day", given[_wayOil], given[_reaching], given[_emulsified], duty.OilLitresPerDay);
        paper.Step("o × s × e", "{0} × {1} % × {2} % = {3} L/day", given[_wayOil], given[_reaching], given[_emulsified], duty.EmulsifiedLitresPerDay);
        paper.Step("t = O / r", "t = {0} / {1} = {2} h", duty.OilLitresPerDay, given[_skimmer], duty.HoursPerDay);
        if (duty.IsEnough)
        {
            paper.Find("enough", Verdict.InRange, Texts.Bench_SkimmerEnough);
            paper.Find("when", Verdict.NotMeasured, Texts.Bench_SkimmerWhen);
        }
        else
        {
            paper.Find("enough", Verdict.Action, Texts.Bench_SkimmerTooSmall);
        }

        paper.Picture = new BenchBars("L/day", [new(Texts.Bench_BarOilUsed, given[_wayOil], 2), new(Texts.Bench_BarOilRises, duty.OilLitresPerDay, 2), new(Texts.Bench_BarOilStays, duty.EmulsifiedLitresPerDay, 2)]);
    }
}
