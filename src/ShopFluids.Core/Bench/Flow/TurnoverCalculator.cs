using ShopFluids.Calculations.Flow;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Core.Bench.Flow;

/// <summary>How often the fluid goes round, see docs/calculations/flow.md.</summary>
internal sealed class TurnoverCalculator : BenchCalculator
{
    private readonly BenchNumber _volume = new("volumeLitres", () => Texts.Bench_FluidInSump, "L", 0.1m, 1_000_000) { Usual = 132.5m };
    private readonly BenchNumber _flow = new("flowLitresPerMinute", () => Texts.Bench_PumpFlow, "L/min", 0.001m, 1_000_000) { Usual = 37.9m };
    private readonly BenchOutput _minutes = new("residenceMinutes", () => Texts.Bench_Residence, "min", 1) { IsMain = true };
    private readonly BenchOutput _rounds = new("turnoversPerHour", () => Texts.Bench_RoundsPerHour, "", 1) { IsMain = true };

    public override string Code => "turnovers";

    public override BenchFamily Family => BenchFamily.Flow;

    public override string Title => Texts.Bench_Turnovers;

    public override string Lead => Texts.Bench_TurnoversLead;

    public override string Source => Texts.Bench_SourceDefinition;

    public override IReadOnlyList<BenchInput> Inputs => [_volume, _flow];

    public override IReadOnlyList<BenchOutput> Outputs => [_minutes, _rounds];

    public override bool UsesSump => true;

    protected override void FillIn(BenchSump sump, BenchKnown known) => known.Set(_volume, sump.Volume?.Value);

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var flow = FlowRate.FromLitresPerMinute(given[_flow]);
        var (minutes, rounds) = (Turnover.ResidenceMinutes(given[_volume], flow), Turnover.PerHour(flow, given[_volume]));
        paper.Give(_minutes, minutes);
        paper.Give(_rounds, rounds);
        paper.Step("t = V / Q", "t = {0} / {1} = {2} min", given[_volume], given[_flow], minutes);
        paper.Step("n = 60 × Q / V", "n = 60 × {0} / {1} = {2}", given[_flow], given[_volume], rounds);
        paper.Find("corners", Verdict.NotMeasured, Texts.Bench_TurnoversCorners);
    }
}
