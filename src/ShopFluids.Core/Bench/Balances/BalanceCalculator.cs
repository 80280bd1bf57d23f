using ShopFluids.Calculations.Balances;
using ShopFluids.Calculations.Uncertainties;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Core.Bench.Balances;

/// <summary>Where the fluid went between two readings, see docs/calculations/balance.md.</summary>
internal sealed class BalanceCalculator : BenchCalculator
{
    private readonly BenchNumber _days = new("days", () => Texts.Bench_DaysBetween, "d", 0.01m, 3650) { Usual = 7 };
    private readonly BenchNumber _volume0 = new("volumeBeforeLitres", () => Texts.Bench_VolumeFirst, "L", 0.1m, 1_000_000) { Usual = 400 };
    private readonly BenchNumber _percent0 = new("concentrationBeforePercent", () => Texts.Bench_ConcentrationFirst, "%", 0, 100) { Usual = 6 };
    private readonly BenchNumber _volume1 = new("volumeAfterLitres", () => Texts.Bench_VolumeLast, "L", 0, 1_000_000) { Usual = 380 };
    private readonly BenchNumber _percent1 = new("concentrationAfterPercent", () => Texts.Bench_ConcentrationLast, "%", 0, 100) { Usual = 6.6m };
    private readonly BenchNumber _volumeUncertainty = new("volumeUncertaintyLitres", () => Texts.Bench_VolumeDoubt, "L", 0, 100_000) { Usual = 8 };
    private readonly BenchNumber _percentUncertainty = new("concentrationUncertaintyPercent", () => Texts.Bench_ConcentrationDoubt, "%", 0, 50) { Usual = 0.3m };
    private readonly BenchNumber _water = new("waterAddedLitres", () => Texts.Bench_WaterAdded, "L", 0, 1_000_000) { Usual = 77.6m };
    private readonly BenchNumber _concentrate = new("concentrateAddedLitres", () => Texts.Bench_ConcentrateAdded, "L", 0, 100_000) { Usual = 2.4m };
    private readonly BenchNumber _removed = new("removedLitres", () => Texts.Bench_TakenOut, "L", 0, 1_000_000) { Usual = 0 };
    private readonly BenchOutput _evaporation = new("evaporationLitres", () => Texts.Bench_Evaporated, "L", 1) { IsMain = true };
    private readonly BenchOutput _carryOff = new("carryOffLitres", () => Texts.Bench_CarriedOff, "L", 1) { IsMain = true };
    private readonly BenchOutput _evaporationPerDay = new("evaporationLitresPerDay", () => Texts.Bench_EvaporatedPerDay, "L", 2);
    private readonly BenchOutput _carryOffPerDay = new("carryOffLitresPerDay", () => Texts.Bench_CarriedOffPerDay, "L", 2);
    private readonly BenchOutput _lost = new("volumeLostLitres", () => Texts.Bench_Lost, "L", 1);
    private readonly BenchOutput _product = new("concentrateLostLitres", () => Texts.Bench_ConcentrateLost, "L", 2);

    public override string Code => "balance";

    public override BenchFamily Family => BenchFamily.Balance;

    public override string Title => Texts.Bench_Balance;

    public override string Lead => Texts.Bench_BalanceLead;

    public override string Source => Texts.Bench_BalanceSource;

    public override IReadOnlyList<BenchInput> Inputs => [_days, _volume0, _percent0, _volume1, _percent1, _volumeUncertainty, _percentUncertainty, _water, _concentrate, _removed];

    public override IReadOnlyList<BenchOutput> Outputs => [_evaporation, _carryOff, _evaporationPerDay, _carryOffPerDay, _lost, _product];

    public override bool UsesSump => true;

    /// <summary>From the first reading of the charge that has both level and concentration to the last.</summary>
    protected override void FillIn(BenchSump sump, BenchKnown known)
    {
        var levels = sump.Series[ParameterCodes.Level].ToLookup(r => r.TakenAtUtc, r => r.Value);
        var both = sump.Series[ParameterCodes.Concentration]
            .Where(c => levels[c.TakenAtUtc].Any(l => l <= sump.Geometry.BrimMm))
            .Select(c => (At: c.TakenAtUtc, Litres: sump.Geometry.VolumeLitresAt(levels[c.TakenAtUtc].First()), Percent: c.Value))
            .ToList();
        if (both.Count < 2 || both[^1].At <= both[0].At)
        {
            return;
        }

        var between = sump.Movements.Where(m => m.AtUtc >= both[0].At && m.AtUtc < both[^1].At).ToList();
        known.Set(_days, (both[^1].At - both[0].At).TotalDays);
        known.Set(_volume0, both[0].Litres);
        known.Set(_percent0, both[0].Percent);
        known.Set(_volume1, both[^1].Litres);
        known.Set(_percent1, both[^1].Percent);
        known.Set(_water, between.Sum(m => m.WaterLitres));
        known.Set(_concentrate, between.Sum(m => m.ConcentrateLitres));
        known.Set(_removed, between.Sum(m => m.RemovedLitres));
        known.Set(_volumeUncertainty, sump.Volume?.ExpandedUncertainty);
        known.Set(_percentUncertainty, sump.Concentration?.ExpandedUncertainty, decimals: 2);
    }

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var (litresDoubt, percentDoubt) = (given[_volumeUncertainty], given[_percentUncertainty]);
        var (first, last) = (
            new SumpReading(0, new Estimate(given[_volume0], litresDoubt), new Estimate(given[_percent0], percentDoubt)),
            new SumpReading(given[_days], new Estimate(given[_volume1], litresDoubt), new Estimate(given[_percent1], percentDoubt)));
        var balance = Balance.Over([first, last], Movements(given));
        paper.Give(_evaporation, balance.EvaporationLitres);
        paper.Give(_carryOff, balance.CarryOffLitres);
        paper.Give(_evaporationPerDay, balance.PerDay.Evaporation);
        paper.Give(_carryOffPerDay, balance.PerDay.CarryOff);
        paper.Give(_lost, balance.VolumeLostLitres);
        paper.Give(_product, balance.ConcentrateLostLitres);
        WriteSteps(given, balance, paper);
        Say(balance, paper);
        paper.Picture = new BenchBars("L", [new BenchBar(Texts.Bench_CarriedOff, balance.CarryOffLitres.Value, 1), new BenchBar(Texts.Bench_Evaporated, balance.EvaporationLitres.Value, 1)]);
    }

    // Removals and additions are taken as spread evenly over the time: half-way is where they weigh the same.
    private List<Movement> Movements(BenchGiven given)
    {
        var half = given[_days] / 2;
        var movements = new List<Movement>();
        Add(given[_water], 0, Movement.Addition);
        Add(given[_concentrate], 100, Movement.Addition);
        Add(given[_removed], (given[_percent0] + given[_percent1]) / 2, Movement.Removal);
        return movements;

        void Add(double litres, double percent, Func<double, Estimate, Estimate, Movement> make)
        {
            if (litres > 0)
            {
                movements.Add(make(half, Estimate.Exact(litres), Estimate.Exact(percent)));
            }
        }
    }

    private void WriteSteps(BenchGiven given, ChargeBalance balance, BenchPaper paper)
    {
        paper.Step("L = V0 + W + X \u2212 R \u2212 V1", "L = {0} + {1} + {2} \u2212 {3} \u2212 {4} = {5} L", given[_volume0], given[_water], given[_concentrate], given[_removed], given[_volume1], balance.VolumeLostLitres.Value);
        paper.Step("Lc = (c0 × V0 + 100 × X \u2212 cR × R \u2212 c1 × V1) / 100", Texts.Bench_BalanceStepProduct, balance.ConcentrateLostLitres.Value);
        paper.Step("D = 100 × Lc / cm", Texts.Bench_BalanceStepCarryOff, balance.ConcentrateLostLitres.Value, balance.MeanConcentrationPercent, balance.CarryOffLitres.Value);
        paper.Step("E = L \u2212 D", "E = {0} \u2212 {1} = {2} L", balance.VolumeLostLitres.Value, balance.CarryOffLitres.Value, balance.EvaporationLitres.Value);
    }

    private static void Say(ChargeBalance balance, BenchPaper paper)
    {
        if (balance.Finding.Fault == BalanceFault.None)
        {
            paper.Find("closes", Verdict.InRange, Texts.Bench_BalanceCloses);
            return;
        }

        paper.Find("doesNotClose", Verdict.Warning, BalanceWords.Fault(balance.Finding.Fault));
        paper.Find("causes", Verdict.NotMeasured, paper.Format.Say(Texts.Bench_BalanceCauses, BalanceWords.Causes(balance.Finding)));
    }
}
