using ShopFluids.Calculations.Upkeep;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Bench.Upkeep;

/// <summary>What a shutdown asks of a sump, see docs/calculations/upkeep.md.</summary>
internal sealed class ShutdownCalculator : BenchCalculator
{
    private const string No = "no";
    private const string Yes = "yes";

    private readonly BenchNumber _days = new("idleDays", () => Texts.Bench_IdleDays, "d", 0, 3650) { Usual = 14 };
    private readonly BenchNumber _volume = new("volumeLitres", () => Texts.Bench_VolumeNow, "L", 0.1m, 1_000_000) { Usual = 300 };
    private readonly BenchNumber _brim = new("brimLitres", () => Texts.Bench_BrimVolume, "L", 0.1m, 1_000_000) { Usual = 420 };
    private readonly BenchNumber _intake = new("intakeLitres", () => Texts.Bench_IntakeVolume, "L", 0, 1_000_000) { Usual = 60 };
    private readonly BenchNumber _percent = new("percent", () => Texts.Bench_ConcentrationNow, "%", 0, 100) { Usual = 6 };
    private readonly BenchNumber _lowest = new("lowestPercent", () => Texts.Bench_LowestConcentration, "%", 0, 100) { Usual = 5 };
    private readonly BenchNumber _highest = new("highestPercent", () => Texts.Bench_HighestConcentration, "%", 0, 100) { Usual = 9 };
    private readonly BenchNumber _evaporation = new("idleEvaporationLitresPerDay", () => Texts.Bench_IdleEvaporation, "L/day", 0, 100_000) { Usual = 2 };
    private readonly BenchChoice _flagged = new("isSomethingWrong", () => Texts.Bench_SomethingWrong, [new(No, () => Texts.Bench_No), new(Yes, () => Texts.Bench_Yes)]) { Hint = () => Texts.Bench_SomethingWrongHint };
    private readonly BenchNumber _skim = new("skimFromDays", () => Texts.Bench_SkimFrom, "d", 0, 3650) { Usual = 1 };
    private readonly BenchNumber _test = new("testAfterFromDays", () => Texts.Bench_TestAfterFrom, "d", 0, 3650) { Usual = 2 };
    private readonly BenchNumber _circulate = new("circulateFromDays", () => Texts.Bench_CirculateFrom, "d", 0, 3650) { Usual = 3 };
    private readonly BenchNumber _circulateHours = new("circulateHoursPerDay", () => Texts.Bench_CirculateEachDay, "h", 0.01m, 24) { Usual = 1 };
    private readonly BenchNumber _drain = new("drainFromDays", () => Texts.Bench_DrainFrom, "d", 0, 3650) { Usual = 60 };
    private readonly BenchOutput _litres = new("expectedLitres", () => Texts.Bench_ExpectedLitres, "L", 0) { IsMain = true };
    private readonly BenchOutput _ends = new("expectedPercent", () => Texts.Bench_ExpectedPercent, "%", 1) { IsMain = true };
    private readonly BenchOutput _hours = new("circulationHours", () => Texts.Bench_CirculationHours, "h", 0);

    public override string Code => "shutdown";

    public override BenchFamily Family => BenchFamily.Upkeep;

    public override string Title => Texts.Bench_Shutdown;

    public override string Lead => Texts.Bench_ShutdownLead;

    public override string Source => Texts.Bench_ShutdownSource;

    public override IReadOnlyList<Caution> Cautions => [Caution.ResidualCurrent, Caution.HydrogenSulphide];

    public override IReadOnlyList<BenchInput> Inputs => [_days, _volume, _brim, _intake, _percent, _lowest, _highest, _evaporation, _flagged, _skim, _test, _circulate, _circulateHours, _drain];

    public override IReadOnlyList<BenchOutput> Outputs => [_litres, _ends, _hours];

    public override bool UsesSump => true;

    protected override void FillIn(BenchSump sump, BenchKnown known)
    {
        known.Set(_brim, sump.Geometry.BrimLitres);
        known.Set(_intake, sump.Geometry.VolumeLitresAt(sump.PumpIntakeMm));
        known.Set(_volume, sump.Volume?.Value);
        known.Set(_percent, sump.Concentration?.Value);
    }

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var sump = new IdleSump(given[_volume], given[_brim], given[_intake], given[_percent], given[_lowest], given[_highest], given[_evaporation], given.Choice(_flagged) == Yes);
        var limits = new ShutdownLimits(given.Whole(_skim), given.Whole(_test), given.Whole(_circulate), given.Whole(_drain), given[_circulateHours]);
        var plan = ShutdownPlan.For(given.Whole(_days), sump, limits);
        paper.Give(_litres, plan.ExpectedLitres);
        paper.Give(_ends, plan.ExpectedPercent);
        paper.Give(_hours, plan.CirculationHours);
        paper.Step("V1 = V − t × E", Texts.Bench_ShutdownStepVolume, given[_volume], given[_days], given[_evaporation], plan.ExpectedLitres);
        if (plan.ExpectedLitres > 0)
        {
            paper.Step("c1 = c × V / V1", "c1 = {0} × {1} / {2} = {3} %", given[_percent], given[_volume], plan.ExpectedLitres, plan.ExpectedPercent);
        }

        Say(given, plan, paper);
        IReadOnlyList<BenchMark> marks = [new(Texts.Bench_MarkBrim, given[_brim]), new(Texts.Bench_MarkIntake, given[_intake])];
        paper.Picture = new BenchSumps(
            given[_brim],
            [
                new BenchSumpDrawing(Caption(given[_volume], given[_percent], paper), Texts.Bench_Now, given[_volume], 0, marks) { IntakeLitres = given[_intake] },
                new BenchSumpDrawing(Caption(plan.ExpectedLitres, plan.ExpectedPercent, paper), Texts.Bench_After, plan.ExpectedLitres, 0, marks) { IntakeLitres = given[_intake] },
            ]);
    }

    private static string Caption(double litres, double percent, BenchPaper paper) =>
        paper.Format.Say(Texts.Bench_VolumeAt, paper.Format.Volume(litres), paper.Format.Number(percent, 1));

    private void Say(BenchGiven given, ShutdownPlan plan, BenchPaper paper)
    {
        (bool IsAsked, string Code, string Sentence)[] all =
        [
            (plan.DrainBefore, "drain", Texts.Bench_ShutdownDrain),
            (plan.TestBefore, "testBefore", Texts.Bench_ShutdownTestBefore),
            (plan.AdjustBefore, "adjustBefore", Texts.Bench_ShutdownAdjustBefore),
            (plan.TopUpBefore, "topUpBefore", Texts.Bench_ShutdownTopUpBefore),
            (plan.SkimBefore, "skimBefore", Texts.Bench_ShutdownSkimBefore),
            (plan.CirculationHours > 0, "circulate", paper.Format.Say(Texts.Bench_ShutdownCirculate, paper.Format.Number(given[_circulateHours], 1))),
            (plan.TestAfter, "testAfter", Texts.Bench_ShutdownTestAfter),
            (plan.AdjustAfter, "adjustAfter", Texts.Bench_ShutdownAdjustAfter),
        ];
        var asked = all.Where(a => a.IsAsked).ToList();
        foreach (var (_, code, sentence) in asked)
        {
            paper.Find(code, Verdict.Warning, sentence);
        }

        if (asked.Count == 0)
        {
            paper.Find("nothing", Verdict.InRange, Texts.Bench_ShutdownNothing);
        }
    }
}
