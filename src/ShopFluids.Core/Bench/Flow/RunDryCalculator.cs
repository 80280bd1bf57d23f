using ShopFluids.Calculations.Flow;
using ShopFluids.Calculations.Volumes;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Bench.Volumes;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Bench.Flow;

/// <summary>Whether the pump keeps its intake covered, see docs/calculations/flow.md.</summary>
internal sealed class RunDryCalculator : BenchCalculator
{
    private readonly ShapeInputs _shape = new();
    private readonly BenchNumber _level = new("levelMm", () => Texts.Bench_LevelStopped, "mm", 0, 20_000) { Usual = 313 };
    private readonly BenchNumber _intake = new("intakeMm", () => Texts.Bench_IntakeLevel, "mm", 0, 20_000) { Usual = 123, Hint = () => Texts.Bench_IntakeLevelHint };
    private readonly BenchNumber _pump = new("pumpLitresPerMinute", () => Texts.Bench_PumpFlow, "L/min", 0, 100_000) { Usual = 70 };
    private readonly BenchNumber _roundTrip = new("roundTripSeconds", () => Texts.Bench_RoundTrip, "s", 0, 86_400) { Usual = 22, Hint = () => Texts.Bench_RoundTripHint };
    private readonly BenchNumber _machine = new("machineLitres", () => Texts.Bench_HeldInMachine, "L", 0, 100_000) { Usual = 14, Hint = () => Texts.Bench_HeldInMachineHint };
    private readonly BenchNumber _chips = new("chipsLitres", () => Texts.Bench_HeldInChips, "L", 0, 100_000) { Usual = 6 };
    private readonly BenchOutput _spare = new("spareLitres", () => Texts.Bench_SpareLitres, "L", 1) { IsMain = true };
    private readonly BenchOutput _dry = new("secondsToRunDry", () => Texts.Bench_SecondsToRunDry, "s", 0) { IsMain = true };
    private readonly BenchOutput _lowest = new("refuseStartBelowMm", () => Texts.Bench_RefuseStartBelow, "mm", 0);
    private readonly BenchOutput _running = new("runningLevelMm", () => Texts.Bench_LevelWhileRunning, "mm", 0);
    private readonly BenchOutput _needed = new("neededLitres", () => Texts.Bench_InFlight, "L", 1);
    private readonly BenchOutput _usable = new("usableLitres", () => Texts.Bench_UsableLitres, "L", 1);
    private readonly BenchOutput _smallest = new("smallestLitres", () => Texts.Bench_SmallestLitres, "L", 1);

    public override string Code => "run-dry";

    public override BenchFamily Family => BenchFamily.Flow;

    public override string Title => Texts.Bench_RunDry;

    public override string Lead => Texts.Bench_RunDryLead;

    public override string Source => Texts.Bench_RunDrySource;

    public override IReadOnlyList<Caution> Cautions => [Caution.LockOut];

    public override IReadOnlyList<BenchInput> Inputs => [.. _shape.Fields, _level, _intake, _pump, _roundTrip, _machine, _chips];

    public override IReadOnlyList<BenchOutput> Outputs => [_spare, _dry, _lowest, _running, _needed, _usable, _smallest];

    public override bool UsesSump => true;

    protected override void FillIn(BenchSump sump, BenchKnown known)
    {
        _shape.FillIn(sump, known);
        known.Set(_intake, sump.PumpIntakeMm);
        known.Set(_level, sump.Level?.Value);
    }

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var sump = _shape.Sump(given);
        var held = given[_machine] + given[_chips];
        var check = RunDry.Check(sump, given[_level], given[_intake], FlowRate.FromLitresPerMinute(given[_pump]), given[_roundTrip], held);
        var content = sump.VolumeLitresAt(given[_level]);
        var running = DrainBack.RunningLevelMm(sump, given[_level], Math.Min(content, check.NeededLitres));
        paper.Give(_spare, check.SpareLitres);
        if (check.SecondsToRunDry is { } seconds)
        {
            paper.Give(_dry, seconds);
        }

        if (check.RefuseStartBelowMm is { } lowest)
        {
            paper.Give(_lowest, lowest);
        }

        paper.Give(_running, running);
        paper.Give(_needed, check.NeededLitres);
        paper.Give(_usable, check.UsableLitres);
        paper.Give(_smallest, check.SmallestSumpLitres);
        paper.Step("F = Q × t / 60 + H", "F = {0} × {1} / 60 + {2} = {3} L", given[_pump], given[_roundTrip], held, check.NeededLitres);
        paper.Step("U = V(h) − V(i)", "U = {0} − {1} = {2} L", content, sump.VolumeLitresAt(given[_intake]), check.UsableLitres);
        paper.Step("S = U − F", "S = {0} − {1} = {2} L", check.UsableLitres, check.NeededLitres, check.SpareLitres);
        if (check.SecondsToRunDry is { } dry)
        {
            paper.Step("T = 60 × U / Q", "T = 60 × {0} / {1} = {2} s", check.UsableLitres, given[_pump], dry);
        }

        Say(check, paper);
        paper.Picture = Draw(given, sump, check, running, paper.Format);
    }

    protected override BenchInput? Meant(string? parameter) => _shape.Meant(parameter);

    private static void Say(RunDryCheck check, BenchPaper paper)
    {
        var format = paper.Format;
        if (check.IsEnough)
        {
            paper.Find("start", Verdict.InRange, Texts.Bench_RunDrySafe);
        }
        else
        {
            paper.Find("start", Verdict.Action, format.Say(Texts.Bench_RunDryAir, format.Volume(-check.SpareLitres)));
        }

        if (check.RefuseStartBelowMm is null)
        {
            paper.Find("lowest", Verdict.NotMeasured, Texts.Bench_RunDryTooSmall);
        }
    }

    private BenchSumps Draw(BenchGiven given, SumpGeometry sump, RunDryCheck check, double running, ShopFormat format)
    {
        var (fluid, intake) = (sump.VolumeLitresAt(running), sump.VolumeLitresAt(given[_intake]));
        var marks = new List<BenchMark>
        {
            new(Texts.Bench_MarkBrim, sump.BrimLitres, sump.BrimMm),
            new(Texts.Bench_MarkStopped, sump.VolumeLitresAt(given[_level]), given[_level]),
            new(Texts.Bench_MarkRunning, fluid, running),
            new(Texts.Bench_MarkIntake, intake, given[_intake]),
        };
        if (check.RefuseStartBelowMm is { } lowest)
        {
            marks.Add(new BenchMark(Texts.Bench_MarkLowest, check.SmallestSumpLitres, lowest));
        }

        var pumped = given[_pump] / 60 * given[_roundTrip];
        var inFlight = new BenchBars("L", [new(Texts.Bench_BarMachine, given[_machine], 1), new(format.Say(Texts.Bench_BarOnTheWay, format.Quantity(given[_pump], "L/min", 0), format.Number(given[_roundTrip], 0)), pumped, 1), new(Texts.Bench_BarChips, given[_chips], 1)]) { Title = format.Say(Texts.Bench_InFlightTitle, format.Volume(check.NeededLitres)) };
        IReadOnlyList<BenchBars> beside = check.SecondsToRunDry is { } dry
            ? [inFlight, new BenchBars("s", [new(Texts.Bench_BarNeeded, given[_roundTrip], 0), new(Texts.Bench_BarDryAfter, dry, 0)]) { Title = Texts.Bench_NothingCameBack }]
            : [inFlight];
        return new BenchSumps(sump.BrimLitres, [new BenchSumpDrawing(format.Say(Texts.Bench_RunningVolume, format.Volume(fluid)), format.Say(Texts.Bench_AboveIntake, format.Volume(Math.Max(0, fluid - intake))), fluid, 0, marks) { IntakeLitres = intake, Shape = sump }]) { Beside = beside };
    }
}
