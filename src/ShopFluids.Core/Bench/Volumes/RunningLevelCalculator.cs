using ShopFluids.Calculations.Volumes;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Core.Bench.Volumes;

/// <summary>Level while running and level at rest, see docs/calculations/volumes.md.</summary>
internal sealed class RunningLevelCalculator : BenchCalculator
{
    private readonly ShapeInputs _shape = new();
    private readonly BenchNumber _level = new("runningLevelMm", () => Texts.Bench_LevelRunning, "mm", 0, 20_000) { Usual = 200 };
    private readonly BenchNumber _pipe = new("pipeInsideMm", () => Texts.Bench_PipeInside, "mm", 0, 10_000) { Usual = 25.4m };
    private readonly BenchNumber _metres = new("pipeMetres", () => Texts.Bench_PipeLength, "m", 0, 100_000) { Usual = 12 };
    private readonly BenchNumber _machine = new("machineLitres", () => Texts.Bench_HeldInMachine, "L", 0, 1_000_000) { Usual = 20, Hint = () => Texts.Bench_HeldInMachineHint };
    private readonly BenchOutput _stopped = new("stoppedLevelMm", () => Texts.Bench_StoppedLevel, "mm", 0) { IsMain = true };
    private readonly BenchOutput _highest = new("highestRunningLevelMm", () => Texts.Bench_HighestRunning, "mm", 0) { IsMain = true };
    private readonly BenchOutput _flight = new("inFlightLitres", () => Texts.Bench_InFlight, "L", 1);
    private readonly BenchOutput _volume = new("stoppedLitres", () => Texts.Bench_StoppedLitres, "L", 1);

    public override string Code => "running-level";

    public override BenchFamily Family => BenchFamily.Volume;

    public override string Title => Texts.Bench_RunningLevel;

    public override string Lead => Texts.Bench_RunningLevelLead;

    public override string Source => Texts.Bench_RunningLevelSource;

    public override IReadOnlyList<BenchInput> Inputs => [.. _shape.Fields, _level, _pipe, _metres, _machine];

    public override IReadOnlyList<BenchOutput> Outputs => [_stopped, _highest, _flight, _volume];

    public override bool UsesSump => true;

    protected override void FillIn(BenchSump sump, BenchKnown known) => _shape.FillIn(sump, known);

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var sump = _shape.Sump(given);
        var pipe = DrainBack.PipeLitres(given[_pipe], given[_metres]);
        var inFlight = pipe + given[_machine];
        var stopped = DrainBack.StoppedLevelMm(sump, given[_level], inFlight);
        var highest = DrainBack.HighestRunningLevelMm(sump, inFlight);
        var (before, after) = (sump.VolumeLitresAt(given[_level]), sump.VolumeLitresAt(stopped));
        paper.Give(_stopped, stopped);
        paper.Give(_highest, highest);
        paper.Give(_flight, inFlight);
        paper.Give(_volume, after);
        paper.Step("F = π × d² / 4 × L + H", "F = π × {0}² / 4000 × {1} + {2} = {3} L", given[_pipe], given[_metres], given[_machine], inFlight);
        paper.Step("V1 = V(h) + F", "V1 = {0} + {1} = {2} L", before, inFlight, after);
        paper.Step("h1 = h(V1)", Texts.Bench_RunningLevelStep, after, stopped);
        paper.Step("hmax = h(Vbrim − F)", Texts.Bench_RunningLevelStep, sump.BrimLitres - inFlight, highest);
        paper.Find("mark", Verdict.InRange, paper.Format.Say(Texts.Bench_RunningLevelMark, paper.Format.Length(highest)));
        IReadOnlyList<BenchMark> Marks(BenchMark level) => [new(Texts.Bench_MarkBrim, sump.BrimLitres, sump.BrimMm), level];
        paper.Picture = new BenchSumps(
            sump.BrimLitres,
            [
                new BenchSumpDrawing(paper.Format.Volume(before), Texts.Bench_MarkRunning, before, 0, Marks(new BenchMark(Texts.Bench_MarkRunning, before, given[_level]))) { Shape = sump },
                new BenchSumpDrawing(paper.Format.Volume(after), Texts.Bench_MarkStopped, after, inFlight, Marks(new BenchMark(Texts.Bench_MarkStopped, after, stopped))) { Shape = sump },
            ]);
    }

    protected override BenchInput? Meant(string? parameter) => parameter == "inFlightLitres" ? _machine : _shape.Meant(parameter);
}
