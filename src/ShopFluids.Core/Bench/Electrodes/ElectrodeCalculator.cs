using ShopFluids.Calculations.Electrodes;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Core.Bench.Electrodes;

/// <summary>Two-point check of a pH electrode, see docs/calculations/ph-electrode.md.</summary>
internal sealed class ElectrodeCalculator : BenchCalculator
{
    private readonly BenchNumber _firstPh = new("firstPh", () => Texts.Bench_FirstBuffer, "", 0, 14) { Usual = 7.01m, Hint = () => Texts.Bench_BufferHint };
    private readonly BenchNumber _firstMillivolts = new("firstMillivolts", () => Texts.Bench_MeterFirst, "mV", -1000, 1000) { Usual = -15 };
    private readonly BenchNumber _secondPh = new("secondPh", () => Texts.Bench_SecondBuffer, "", 0, 14) { Usual = 4.01m, Hint = () => Texts.Bench_SecondBufferHint };
    private readonly BenchNumber _secondMillivolts = new("secondMillivolts", () => Texts.Bench_MeterSecond, "mV", -1000, 1000) { Usual = 160 };
    private readonly BenchNumber _celsius = new("temperatureCelsius", () => Texts.Bench_BufferTemperature, "°C", 0, 100) { Usual = 25 };
    private readonly BenchNumber _lowest = new("lowestSlopePercent", () => Texts.Bench_LowestSlope, "%", 0, 200) { Usual = 85 };
    private readonly BenchNumber _highest = new("highestSlopePercent", () => Texts.Bench_HighestSlope, "%", 0, 200) { Usual = 105 };
    private readonly BenchNumber _offsetLimit = new("largestOffsetMillivolts", () => Texts.Bench_LargestOffset, "mV", 0, 1000) { Usual = 30 };
    private readonly BenchOutput _slope = new("slopePercent", () => Texts.Bench_SlopePercent, "%", 1) { IsMain = true };
    private readonly BenchOutput _offset = new("offsetMillivolts", () => Texts.Bench_OffsetMillivolts, "mV", 1) { IsMain = true };
    private readonly BenchOutput _each = new("slopeMillivoltsPerPh", () => Texts.Bench_SlopeEach, "mV", 2);
    private readonly BenchOutput _theory = new("theoryMillivoltsPerPh", () => Texts.Bench_SlopeTheory, "mV", 2);

    public override string Code => "ph-electrode";

    public override BenchFamily Family => BenchFamily.Upkeep;

    public override string Title => Texts.Bench_Electrode;

    public override string Lead => Texts.Bench_ElectrodeLead;

    public override string Source => Texts.Bench_ElectrodeSource;

    public override IReadOnlyList<BenchInput> Inputs => [_firstPh, _firstMillivolts, _secondPh, _secondMillivolts, _celsius, _lowest, _highest, _offsetLimit];

    public override IReadOnlyList<BenchOutput> Outputs => [_slope, _offset, _each, _theory];

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var (first, second) = (new BufferReading(given[_firstPh], given[_firstMillivolts]), new BufferReading(given[_secondPh], given[_secondMillivolts]));
        var check = ElectrodeCheck.TwoPoint(first, second, given[_celsius], new ElectrodeLimits(given[_lowest], given[_highest], given[_offsetLimit]));
        var theory = Nernst.SlopeMillivoltsPerPh(given[_celsius]);
        paper.Give(_slope, check.SlopePercent);
        paper.Give(_offset, check.OffsetMillivolts);
        paper.Give(_each, check.SlopeMillivoltsPerPh);
        paper.Give(_theory, theory);
        paper.Step("s = (E1 − E2) / (pH2 − pH1)", second.Millivolts < 0 ? "s = ({0} − ({1})) / ({2} − {3}) = {4} mV" : "s = ({0} − {1}) / ({2} − {3}) = {4} mV", first.Millivolts, second.Millivolts, second.Ph, first.Ph, check.SlopeMillivoltsPerPh);
        paper.Step("k = ln 10 × R × T / F", Texts.Bench_ElectrodeStepTheory, given[_celsius], theory);
        paper.Step("100 × s / k", "100 × {0} / {1} = {2} %", check.SlopeMillivoltsPerPh, theory, check.SlopePercent);
        paper.Step("E7 = E1 − s × (7 − pH1)", "E7 = {0} − {1} × (7 − {2}) = {3} mV", first.Millivolts, check.SlopeMillivoltsPerPh, first.Ph, check.OffsetMillivolts);
        Say(given, check, paper);
        paper.Picture = Draw(first, second, check, theory);
    }

    private void Say(BenchGiven given, ElectrodeCheckResult check, BenchPaper paper)
    {
        var format = paper.Format;
        if (check.Passes)
        {
            paper.Find("passes", Verdict.InRange, Texts.Bench_ElectrodePasses);
            return;
        }

        if (!check.IsSlopeAccepted)
        {
            paper.Find("slope", Verdict.Action, format.Say(Texts.Bench_ElectrodeSlope, format.Number(given[_lowest], 0), format.Number(given[_highest], 0)));
        }

        if (!check.IsOffsetAccepted)
        {
            paper.Find("offset", Verdict.Action, format.Say(Texts.Bench_ElectrodeOffset, format.Number(given[_offsetLimit], 0)));
        }

        paper.Find("advice", Verdict.NotMeasured, Texts.Bench_ElectrodeAdvice);
    }

    private static BenchCurves Draw(BufferReading first, BufferReading second, ElectrodeCheckResult check, double theory)
    {
        var (low, high) = (Math.Min(Math.Min(first.Ph, second.Ph), 4), Math.Max(Math.Max(first.Ph, second.Ph), 10));
        (double, double) At(double ph, double slope, double offset) => (ph, offset + (slope * (7 - ph)));
        return new BenchCurves(
            Texts.Bench_AxisPh,
            Texts.Bench_AxisMillivolts,
            [
                new BenchCurve(Texts.Bench_CurveElectrode, BenchCurveKind.Line, [At(low, check.SlopeMillivoltsPerPh, check.OffsetMillivolts), At(high, check.SlopeMillivoltsPerPh, check.OffsetMillivolts)]),
                new BenchCurve(Texts.Bench_CurveTheory, BenchCurveKind.Dashed, [At(low, theory, 0), At(high, theory, 0)]),
                new BenchCurve("", BenchCurveKind.Points, [.. new[] { first, second }.OrderBy(b => b.Ph).Select(b => (b.Ph, b.Millivolts))]),
            ],
            []);
    }
}
