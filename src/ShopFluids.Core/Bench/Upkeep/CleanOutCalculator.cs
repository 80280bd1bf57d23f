using ShopFluids.Calculations.Upkeep;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Bench.Upkeep;

/// <summary>Cleaner, rinses, refill and waste of a clean-out, see docs/calculations/upkeep.md.</summary>
internal sealed class CleanOutCalculator : BenchCalculator
{
    private readonly BenchNumber _content = new("contentLitres", () => Texts.Bench_OldFluid, "L", 0.1m, 1_000_000) { Usual = 300 };
    private readonly BenchNumber _system = new("systemLitres", () => Texts.Bench_SystemFull, "L", 0.1m, 1_000_000) { Usual = 420 };
    private readonly BenchNumber _heel = new("heelLitres", () => Texts.Bench_Heel, "L", 0, 1_000_000) { Usual = 20, Hint = () => Texts.Bench_HeelHint };
    private readonly BenchNumber _cleaner = new("cleanerPercent", () => Texts.Bench_CleanerDose, "%", 0, 20) { Usual = 2, Hint = () => Texts.Bench_CleanerDoseHint };
    private readonly BenchNumber _circulation = new("circulationHours", () => Texts.Bench_CleanerHours, "h", 0, 1000) { Usual = 12 };
    private readonly BenchNumber _rinses = new("rinses", () => Texts.Bench_Rinses, "", 0, 20) { Usual = 2 };
    private readonly BenchNumber _rinse = new("rinseLitres", () => Texts.Bench_RinseEach, "L", 0, 1_000_000) { Usual = 80 };
    private readonly BenchNumber _rinseHours = new("rinseHours", () => Texts.Bench_RinseHours, "h", 0, 1000) { Usual = 0.5m };
    private readonly BenchNumber _refill = new("refillLitres", () => Texts.Bench_Refill, "L", 0.1m, 1_000_000) { Usual = 380 };
    private readonly BenchNumber _percent = new("refillPercent", () => Texts.Bench_RefillAt, "%", 0, 100) { Usual = 7 };
    private readonly BenchNumber _drainFlow = new("drainLitresPerMinute", () => Texts.Bench_DrainFlow, "L/min", 0.1m, 100_000) { Usual = 40 };
    private readonly BenchNumber _fillFlow = new("fillLitresPerMinute", () => Texts.Bench_FillFlow, "L/min", 0.1m, 100_000) { Usual = 20 };
    private readonly BenchNumber _hand = new("handHours", () => Texts.Bench_HandHours, "h", 0, 1000) { Usual = 1.5m };
    private readonly BenchNumber _step = new("measurableLitres", () => Texts.Bench_MeasureTo, "L", 0.001m, 1000) { Usual = 0.5m };
    private readonly BenchNumber _store = new("inStoreLitres", () => Texts.Bench_InStore, "L", 0, 1_000_000) { Usual = 10 };
    private readonly BenchNumber _package = new("packageLitres", () => Texts.Bench_Package, "L", 0.01m, 100_000) { Usual = 25 };
    private readonly BenchOutput _waste = new("wasteLitres", () => Texts.Bench_Waste, "L", 0) { IsMain = true };
    private readonly BenchOutput _hours = new("machineHours", () => Texts.Bench_MachineStands, "h", 1) { IsMain = true };
    private readonly BenchOutput _cleanerLitres = new("cleanerLitres", () => Texts.Bench_CleanerLitres, "L", 1);
    private readonly BenchOutput _concentrate = new("concentrateLitres", () => Texts.Bench_Concentrate, "L", 1);
    private readonly BenchOutput _water = new("waterLitres", () => Texts.Bench_Water, "L", 1);
    private readonly BenchOutput _drums = new("packages", () => Texts.Bench_Drums, "", 0);
    private readonly BenchOutput _remove = new("removeFirstLitres", () => Texts.Bench_RemoveFirst, "L", 1);
    private readonly BenchOutput _drain = new("drainLitres", () => Texts.Bench_FirstDrain, "L", 1);
    private readonly BenchOutput _rinsing = new("rinsesLitres", () => Texts.Bench_RinsesTogether, "L", 1);
    private readonly BenchOutput _old = new("oldFluidPercent", () => Texts.Bench_OldFluidLeft, "%", 2);
    private readonly BenchOutput _ends = new("expectedPercent", () => Texts.Bench_EndsAt, "%", 1);

    public override string Code => "clean-out";

    public override BenchFamily Family => BenchFamily.Upkeep;

    public override string Title => Texts.Bench_CleanOut;

    public override string Lead => Texts.Bench_CleanOutLead;

    public override string Source => Texts.Bench_CleanOutSource;

    public override IReadOnlyList<Caution> Cautions => [Caution.HydrogenSulphide, Caution.LockOut, Caution.GlovesAndGoggles, Caution.ConcentrateIntoWater, Caution.RegulatedWaste];

    public override IReadOnlyList<BenchInput> Inputs => [_content, _system, _heel, _cleaner, _circulation, _rinses, _rinse, _rinseHours, _refill, _percent, _drainFlow, _fillFlow, _hand, _step, _store, _package];

    public override IReadOnlyList<BenchOutput> Outputs => [_waste, _hours, _cleanerLitres, _concentrate, _water, _drums, _remove, _drain, _rinsing, _old, _ends];

    public override bool UsesSump => true;

    protected override void FillIn(BenchSump sump, BenchKnown known)
    {
        var full = sump.Geometry.VolumeLitresAt(sump.FullMarkMm);
        known.Set(_system, sump.Geometry.BrimLitres);
        known.Set(_refill, Math.Max(full / 2, full - (double)(_heel.Usual ?? 0)));
        known.Set(_content, sump.Volume?.Value ?? full);
        known.Set(_percent, sump.Fluid?.TargetPercent);
    }

    // What the request as a whole is refused for is a cleaner dose without room.
    protected override BenchInput? Meant(string? parameter) => parameter == "request" ? _cleaner : null;

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var plan = CleanOutPlan.Make(new CleanOutRequest(
            given[_content],
            given[_system],
            given[_heel],
            given[_cleaner],
            given[_circulation],
            given.Whole(_rinses),
            given[_rinse],
            given[_rinseHours],
            given[_refill],
            given[_percent],
            given[_drainFlow],
            given[_fillFlow],
            given[_hand],
            given[_step]));
        var shopping = ShoppingLine.For(plan.Refill.ConcentrateLitres, given[_store], given[_package]);
        paper.Give(_waste, plan.WasteLitres);
        paper.Give(_hours, plan.MachineHours);
        paper.Give(_cleanerLitres, plan.CleanerLitres);
        paper.Give(_concentrate, plan.Refill.ConcentrateLitres);
        paper.Give(_water, plan.Refill.WaterLitres);
        paper.Give(_drums, shopping.Packages);
        paper.Give(_remove, plan.RemoveForCleanerLitres);
        paper.Give(_drain, plan.DrainLitres);
        paper.Give(_rinsing, plan.RinseLitres);
        paper.Give(_old, plan.OldFluidLeftPercent);
        paper.Give(_ends, plan.ExpectedPercent);
        WriteSteps(given, plan, paper);
        Say(plan, shopping, paper);
        paper.Picture = new BenchBars("L", [new(Texts.Bench_BarDrain, plan.RemoveForCleanerLitres + plan.DrainLitres, 1), new(Texts.Bench_BarRinses, plan.RinseLitres, 1), new(Texts.Bench_BarFreshMix, plan.Refill.MixedLitres, 1)]);
    }

    private void WriteSteps(BenchGiven given, CleanOutPlan plan, BenchPaper paper)
    {
        paper.Step("R = V × r / 100", Texts.Bench_CleanOutStepCleaner, given[_content], given[_cleaner], plan.CleanerLitres);
        paper.Step("D = V − V0 + R − H", "D = {0} − {1} + {2} − {3} = {4} L", given[_content], plan.RemoveForCleanerLitres, plan.CleanerLitres, given[_heel], plan.DrainLitres);
        paper.Step("W = V0 + D + n × S", "W = {0} + {1} + {2} = {3} L", plan.RemoveForCleanerLitres, plan.DrainLitres, plan.RinseLitres, plan.WasteLitres);
        paper.Step("X = c × F / 100", Texts.Bench_CleanOutStepMix, given[_percent], given[_refill], plan.Refill.ConcentrateLitres, plan.Refill.WaterLitres);
        paper.Step(
            "p = 100 × (H / (H + S))^n × H / (F + H)",
            "p = 100 × ({0} / ({0} + {1}))^{2} × {0} / ({3} + {0}) = {4} %",
            given[_heel],
            given[_rinse],
            given[_rinses],
            plan.Refill.MixedLitres,
            plan.OldFluidLeftPercent);
        paper.Step(
            "T = (W / Qd + (n × S + F) / Qf) / 60 + n × t + T0",
            "T = ({0} / {1} + ({2} + {3}) / {4}) / 60 + {5} + {6} = {7} h",
            plan.WasteLitres,
            given[_drainFlow],
            plan.RinseLitres,
            plan.Refill.MixedLitres,
            given[_fillFlow],
            given[_rinses] * given[_rinseHours],
            given[_hand],
            plan.MachineHours);
    }

    private static void Say(CleanOutPlan plan, ShoppingLine shopping, BenchPaper paper)
    {
        var format = paper.Format;
        if (plan.RemoveForCleanerLitres > 0)
        {
            paper.Find("remove", Verdict.Warning, format.Say(Texts.Bench_CleanOutRemove, format.Volume(plan.RemoveForCleanerLitres)));
        }

        if (shopping.Packages > 0)
        {
            paper.Find("store", Verdict.Warning, format.Say(Texts.Bench_CleanOutBuy, format.Volume(shopping.ShortLitres)));
        }
        else
        {
            paper.Find("store", Verdict.InRange, format.Say(Texts.Bench_CleanOutInStore, format.Volume(shopping.LeftLitres)));
        }

        paper.Find("circulate", Verdict.NotMeasured, format.Say(Texts.Bench_CleanOutCirculate, format.Number(plan.CirculationHours, 1)));
    }
}
