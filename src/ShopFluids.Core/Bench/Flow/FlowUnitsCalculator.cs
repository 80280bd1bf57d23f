using ShopFluids.Calculations.Flow;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Bench.Flow;

/// <summary>A flow in all units of the trade, see docs/calculations/flow.md.</summary>
internal sealed class FlowUnitsCalculator : BenchCalculator
{
    private const string Litres = "litresPerMinute";
    private const string LitresPerSecond = "litresPerSecond";
    private const string CubicMetres = "cubicMetresPerHour";
    private const string UsPerMinute = "usGallonsPerMinute";
    private const string UsPerHour = "usGallonsPerHour";
    private const string Imperial = "imperialGallonsPerMinute";

    private readonly BenchChoice _unit = new("unit", () => Texts.Bench_FlowUnit,
    [
        new(Litres, () => Texts.Bench_UnitLitresPerMinute),
        new(LitresPerSecond, () => Texts.Bench_UnitLitresPerSecond),
        new(CubicMetres, () => Texts.Bench_UnitCubicMetresPerHour),
        new(UsPerMinute, () => Texts.Bench_UnitUsGallonsPerMinute),
        new(UsPerHour, () => Texts.Bench_UnitUsGallonsPerHour),
        new(Imperial, () => Texts.Bench_UnitImperialGallonsPerMinute),
    ]);
    private readonly BenchNumber _amount = new("amount", () => Texts.Bench_Flow, "", 0, 10_000_000) { Usual = 70 };
    private readonly BenchOutput _litres = new("litresPerMinute", () => Texts.Bench_LitresPerMinute, "L/min", 2) { IsMain = true, IsInOwnUnit = true };
    private readonly BenchOutput _us = new("usGallonsPerMinute", () => Texts.Bench_UsGallonsPerMinute, "gal/min", 2) { IsMain = true, IsInOwnUnit = true };
    private readonly BenchOutput _usHour = new("usGallonsPerHour", () => Texts.Bench_UsGallonsPerHour, "gal/h", 1) { IsInOwnUnit = true };
    private readonly BenchOutput _cubic = new("cubicMetresPerHour", () => Texts.Bench_CubicMetresPerHour, "m³/h", 3) { IsInOwnUnit = true };
    private readonly BenchOutput _second = new("litresPerSecond", () => Texts.Bench_LitresPerSecond, "L/s", 3) { IsInOwnUnit = true };
    private readonly BenchOutput _imperial = new("imperialGallonsPerMinute", () => Texts.Bench_ImperialGallonsPerMinute, "gal/min", 2) { IsInOwnUnit = true };

    public override string Code => "flow-units";

    public override BenchFamily Family => BenchFamily.Flow;

    public override string Title => Texts.Bench_FlowUnits;

    public override string Lead => Texts.Bench_FlowUnitsLead;

    public override string Source => Texts.Bench_SourceDefinition;

    public override IReadOnlyList<BenchInput> Inputs => [_unit, _amount];

    public override IReadOnlyList<BenchOutput> Outputs => [_litres, _us, _usHour, _cubic, _second, _imperial];

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var amount = given[_amount];
        var flow = given.Choice(_unit) switch
        {
            Litres => FlowRate.FromLitresPerMinute(amount),
            LitresPerSecond => FlowRate.FromLitresPerSecond(amount),
            CubicMetres => FlowRate.FromCubicMetresPerHour(amount),
            UsPerMinute => FlowRate.FromUsGallonsPerMinute(amount),
            UsPerHour => FlowRate.FromUsGallonsPerHour(amount),
            _ => FlowRate.FromImperialGallonsPerMinute(amount),
        };
        paper.Give(_litres, flow.LitresPerMinute);
        paper.Give(_us, flow.UsGallonsPerMinute);
        paper.Give(_usHour, flow.UsGallonsPerHour);
        paper.Give(_cubic, flow.CubicMetresPerHour);
        paper.Give(_second, flow.LitresPerSecond);
        paper.Give(_imperial, flow.ImperialGallonsPerMinute);
        paper.Step(Texts.Bench_FlowStepUs, Texts.Bench_FlowStepUsNumbers, flow.LitresPerMinute, flow.UsGallonsPerMinute);
        paper.Step(Texts.Bench_FlowStepImperial, Texts.Bench_FlowStepImperialNumbers, flow.LitresPerMinute, flow.ImperialGallonsPerMinute);
        paper.Step("1 m³/h = 1000 L / 60 min", "{0} × 60 / 1000 = {1} m³/h", flow.LitresPerMinute, flow.CubicMetresPerHour);
    }

    // The only other input is a choice, so whatever is refused is the amount.
    protected override BenchInput? Meant(string? parameter) => _amount;
}
