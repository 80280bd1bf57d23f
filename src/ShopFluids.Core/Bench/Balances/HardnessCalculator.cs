using ShopFluids.Calculations.Balances;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Core.Bench.Balances;

/// <summary>How hardness builds up in a sump that is kept full, and what water would hold it, see docs/calculations/balance.md.</summary>
internal sealed class HardnessCalculator : BenchCalculator
{
    private const int PointsDrawn = 60;

    private readonly BenchNumber _volume = new("volumeLitres", () => Texts.Bench_VolumeNow, "L", 0.1m, 1_000_000) { Usual = 400 };
    private readonly BenchNumber _evaporation = new("evaporationLitresPerDay", () => Texts.Bench_EvaporatedPerDay, "L", 0, 100_000) { Usual = 12 };
    private readonly BenchNumber _carryOff = new("carryOffLitresPerDay", () => Texts.Bench_CarriedOffPerDay, "L", 0, 100_000) { Usual = 4 };
    private readonly BenchNumber _makeUp = new("makeUpMgPerLitre", () => Texts.Bench_MakeUpHardness, "mg/L", 0, 100_000) { Usual = 180 };
    private readonly BenchNumber _start = new("startMgPerLitre", () => Texts.Bench_HardnessNow, "mg/L", 0, 100_000) { Usual = 180 };
    private readonly BenchNumber _limit = new("limitMgPerLitre", () => Texts.Bench_HardnessMost, "mg/L", 1, 100_000) { Usual = 300 };
    private readonly BenchNumber _soft = new("softMgPerLitre", () => Texts.Bench_SoftHardness, "mg/L", 0, 100_000) { Usual = 5 };
    private readonly BenchNumber _days = new("days", () => Texts.Bench_DaysAhead, "d", 1, 3650) { Usual = 180 };
    private readonly BenchOutput _then = new("thenMgPerLitre", () => Texts.Bench_HardnessThen, "mg/L", 0) { IsMain = true };
    private readonly BenchOutput _makeUpMost = new("hardestMakeUpMgPerLitre", () => Texts.Bench_HardestMakeUp, "mg/L", 0);
    private readonly BenchOutput _softShare = new("softSharePercent", () => Texts.Bench_SoftShare, "%", 0) { IsMain = true };

    public override string Code => "hardness-build-up";

    public override BenchFamily Family => BenchFamily.Balance;

    public override string Title => Texts.Bench_Hardness;

    public override string Lead => Texts.Bench_HardnessLead;

    public override string Source => Texts.Bench_HardnessSource;

    public override IReadOnlyList<BenchInput> Inputs => [_volume, _evaporation, _carryOff, _makeUp, _start, _limit, _soft, _days];

    public override IReadOnlyList<BenchOutput> Outputs => [_then, _makeUpMost, _softShare];

    public override bool UsesSump => true;

    protected override void FillIn(BenchSump sump, BenchKnown known)
    {
        known.Set(_volume, sump.Volume?.Value);
        known.Set(_makeUp, sump.Water?.HardnessMgPerLitre);
        known.Set(_start, sump.Series[ParameterCodes.Hardness].LastOrDefault()?.Value ?? (double?)sump.Water?.HardnessMgPerLitre);
    }

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var sump = new MakeUp(given[_volume], given[_evaporation], given[_carryOff]);
        var (water, start, limit, days) = (given[_makeUp], given[_start], given[_limit], given[_days]);
        var then = Buildup.At(sump, water, start, days);
        var hardest = Buildup.HardestMakeUpMgPerLitre(sump, Math.Min(start, limit), limit);
        var blend = WaterBlend.Of(Math.Max(water, given[_soft]), Math.Min(water, given[_soft]), hardest);
        paper.Give(_then, then);
        paper.Give(_makeUpMost, hardest);
        paper.Give(_softShare, 100 * blend.SoftShare);
        paper.Step("H(t) = He \u2212 (He \u2212 H0) × e^(\u2212d × t / V)", Texts.Bench_HardnessStep, water, given[_evaporation], given[_carryOff], days, then);
        if (sump.CyclesOfConcentration is { } cycles)
        {
            paper.Step("C = (e + d) / d", "C = ({0} + {1}) / {1} = {2}", given[_evaporation], given[_carryOff], cycles);
        }

        Say(sump, given, blend, paper);
        var points = Enumerable.Range(0, PointsDrawn + 1).Select(i => days * i / PointsDrawn).Select(t => (t, Buildup.At(sump, water, start, t))).ToList();
        paper.Picture = new BenchCurves(Texts.Bench_AxisDays, Texts.Bench_AxisHardness, [new BenchCurve(Texts.Bench_CurveSump, BenchCurveKind.Line, points)], [new BenchLevel(Texts.Bench_LevelMost, limit)]);
    }

    private void Say(MakeUp sump, BenchGiven given, WaterBlend blend, BenchPaper paper)
    {
        var format = paper.Format;
        var (water, start, limit) = (given[_makeUp], given[_start], given[_limit]);
        var until = Buildup.DaysToLimit(sump, water, start, limit);
        paper.Find(
            "limit",
            until is null ? Verdict.InRange : until == 0 ? Verdict.Action : Verdict.Warning,
            until is { } day
                ? day == 0 ? Texts.Bench_HardnessOver : format.Say(Texts.Bench_HardnessReached, format.Number(Math.Min(day, 999_999), 0))
                : Texts.Bench_HardnessNever);
        paper.Find("steady", Verdict.NotMeasured, Buildup.SteadyStateMgPerLitre(sump, water) is { } end ? format.Say(Texts.Bench_HardnessEnd, format.Hardness(end)) : Texts.Bench_HardnessNoEnd);
        paper.Find("blend", Verdict.NotMeasured, blend.Case switch
        {
            WaterBlendCase.HardWaterWillDo => Texts.Bench_BlendNotNeeded,
            WaterBlendCase.Blend => format.Say(Texts.Bench_BlendDo, format.Number(100 * blend.SoftShare, 0)),
            _ => Texts.Bench_BlendNotEnough,
        });
    }
}
