using ShopFluids.Calculations.Costs;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Bench.Costs;

/// <summary>What a charge has cost, see docs/calculations/costs.md.</summary>
internal sealed class ChargeCostCalculator : BenchCalculator
{
    private readonly BenchNumber _concentrate = new("concentrateLitres", () => Texts.Bench_Concentrate, "L", 0, 1_000_000) { Usual = 46.5m };
    private readonly BenchNumber _concentratePrice = new("concentratePricePerLitre", () => Texts.Bench_PriceConcentrate, "/L", 0, 1_000_000) { Usual = 4.2m };
    private readonly BenchNumber _water = new("waterLitres", () => Texts.Bench_Water, "L", 0, 1_000_000) { Usual = 620 };
    private readonly BenchNumber _waterPrice = new("waterPricePerLitre", () => Texts.Bench_PriceWater, "/L", 0, 1_000_000) { Usual = 0.005m };
    private readonly BenchNumber _additives = new("additiveLitres", () => Texts.Bench_Additives, "L", 0, 1_000_000) { Usual = 2 };
    private readonly BenchNumber _additivesPrice = new("additivePricePerLitre", () => Texts.Bench_PriceAdditives, "/L", 0, 1_000_000) { Usual = 18.5m };
    private readonly BenchNumber _waste = new("wasteLitres", () => Texts.Bench_WasteLitres, "L", 0, 1_000_000) { Usual = 446 };
    private readonly BenchNumber _wastePrice = new("wastePricePerLitre", () => Texts.Bench_PriceWaste, "/L", 0, 1_000_000) { Usual = 0.35m };
    private readonly BenchNumber _labour = new("labourHours", () => Texts.Bench_Labour, "h", 0, 1_000_000) { Usual = 9.5m };
    private readonly BenchNumber _labourPrice = new("labourPricePerHour", () => Texts.Bench_PriceLabour, "", 0, 1_000_000) { Usual = 38 };
    private readonly BenchNumber _downtime = new("downtimeHours", () => Texts.Bench_Downtime, "h", 0, 1_000_000) { Usual = 3.25m };
    private readonly BenchNumber _downtimePrice = new("downtimePricePerHour", () => Texts.Bench_PriceDowntime, "", 0, 1_000_000) { Usual = 65 };
    private readonly BenchNumber _running = new("runningHours", () => Texts.Bench_RunningHours, "h", 0.01m, 1_000_000) { Usual = 1000 };
    private readonly BenchNumber _days = new("days", () => Texts.Bench_ChargeDays, "d", 0.01m, 1_000_000) { Usual = 180 };
    private readonly BenchOutput _total = new("totalCost", () => Texts.Bench_TotalCost, "", 2) { IsMain = true };
    private readonly BenchOutput _perHour = new("costPerRunningHour", () => Texts.Bench_CostPerHour, "", 2) { IsMain = true };
    private readonly BenchOutput _perDay = new("costPerDay", () => Texts.Bench_CostPerDay, "", 2);

    public override string Code => "charge-cost";

    public override BenchFamily Family => BenchFamily.Upkeep;

    public override string Title => Texts.Bench_ChargeCost;

    public override string Lead => Texts.Bench_ChargeCostLead;

    public override string Source => Texts.Bench_SourceDefinition;

    public override IReadOnlyList<BenchInput> Inputs => [_concentrate, _concentratePrice, _water, _waterPrice, _additives, _additivesPrice, _waste, _wastePrice, _labour, _labourPrice, _downtime, _downtimePrice, _running, _days];

    public override IReadOnlyList<BenchOutput> Outputs => [_total, _perHour, _perDay];

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        Priced Of(BenchNumber amount, BenchNumber price) => new(given.Exact(amount), given.Exact(price));
        var cost = new ChargeCost(Of(_concentrate, _concentratePrice), Of(_water, _waterPrice), Of(_additives, _additivesPrice), Of(_waste, _wastePrice), Of(_labour, _labourPrice), Of(_downtime, _downtimePrice));
        var (perHour, perDay) = (cost.Per(given.Exact(_running)), cost.Per(given.Exact(_days)));
        paper.Give(_total, (double)cost.Total);
        paper.Give(_perHour, (double)perHour);
        paper.Give(_perDay, (double)perDay);
        IReadOnlyList<(Priced Part, string Name)> parts =
        [
            (cost.Concentrate, Texts.Bench_BarConcentrate),
            (cost.Water, Texts.Bench_BarWater),
            (cost.Additives, Texts.Bench_BarAdditives),
            (cost.Waste, Texts.Bench_BarWaste),
            (cost.Labour, Texts.Bench_BarLabour),
            (cost.Downtime, Texts.Bench_BarDowntime),
        ];
        foreach (var (part, name) in parts)
        {
            paper.Step(name, "{0} × {1} = {2}", (double)part.Amount, (double)part.PricePerUnit, (double)part.Cost);
        }

        paper.Step("T = Σ", "T = {0} + {1} + {2} + {3} + {4} + {5} = {6}", [.. parts.Select(p => (double)p.Part.Cost), (double)cost.Total]);
        paper.Step("T / t", "{0} / {1} = {2}", (double)cost.Total, given[_running], (double)perHour);
        paper.Step("T / d", "{0} / {1} = {2}", (double)cost.Total, given[_days], (double)perDay);
        paper.Picture = new BenchBars("", [.. parts.Select(p => new BenchBar(p.Name, (double)p.Part.Cost, 2))]);
    }
}
