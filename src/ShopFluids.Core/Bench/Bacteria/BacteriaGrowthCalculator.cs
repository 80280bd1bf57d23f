using ShopFluids.Calculations.Bacteria;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Bench.Bacteria;

/// <summary>Band and doubling time of bacteria counts, see docs/calculations/bacteria.md.</summary>
internal sealed class BacteriaGrowthCalculator : BenchCalculator
{
    private const string Current = "current";
    private const string Older = "hse2006";
    private const double HoursOfADay = 24;

    private readonly BenchNumber _first = new("firstCfu", () => Texts.Bench_FirstCount, "", 1, 1_000_000_000_000) { Usual = 10_000, Hint = () => Texts.Bench_CountHint };
    private readonly BenchNumber _second = new("secondCfu", () => Texts.Bench_SecondCount, "", 1, 1_000_000_000_000) { Usual = 1_000_000 };
    private readonly BenchNumber _hours = new("hours", () => Texts.Bench_HoursBetween, "h", 0.1m, 100_000) { Usual = 168 };
    private readonly BenchNumber _uncertainty = new("standardUncertaintyLog10", () => Texts.Bench_SlideUncertainty, "", 0.001m, 3) { Usual = 0.29m, Hint = () => Texts.Bench_SlideUncertaintyHint };
    private readonly BenchChoice _scheme = new("bands", () => Texts.Bench_BacteriaScheme,
    [
        new(Current, () => Texts.Bench_BandsCurrent),
        new(Older, () => Texts.Bench_BandsOlder),
    ]);
    private readonly BenchOutput _doubling = new("doublingHours", () => Texts.Bench_DoublingHours, "h", 1) { IsMain = true };
    private readonly BenchOutput _shortest = new("shortestDoublingHours", () => Texts.Bench_ShortestDoubling, "h", 1);
    private readonly BenchOutput _longest = new("longestDoublingHours", () => Texts.Bench_LongestDoubling, "h", 1);
    private readonly BenchOutput _rate = new("log10PerDay", () => Texts.Bench_Log10PerDay, "", 3);
    private readonly BenchOutput _poor = new("hoursToPoor", () => Texts.Bench_HoursToPoor, "h", 0);

    public override string Code => "bacteria-growth";

    public override BenchFamily Family => BenchFamily.Trend;

    public override string Title => Texts.Bench_Bacteria;

    public override string Lead => Texts.Bench_BacteriaLead;

    public override string Source => Texts.Bench_BacteriaSource;

    public override IReadOnlyList<Caution> Cautions => [Caution.BiocideByLabel, Caution.OccupationalHealth];

    public override IReadOnlyList<BenchInput> Inputs => [_first, _second, _hours, _uncertainty, _scheme];

    public override IReadOnlyList<BenchOutput> Outputs => [_doubling, _shortest, _longest, _rate, _poor];

    public override bool UsesSump => true;

    protected override void FillIn(BenchSump sump, BenchKnown known)
    {
        // The readings hold powers of ten.
        if (sump.Series[ParameterCodes.Bacteria].TakeLast(2).ToList() is [{ Value: >= 0 and <= 12 } earlier, { Value: >= 0 and <= 12 } latest] && latest.TakenAtUtc > earlier.TakenAtUtc)
        {
            known.Set(_first, BacteriaScale.CfuFromLog10(earlier.Value), decimals: 0);
            known.Set(_second, BacteriaScale.CfuFromLog10(latest.Value), decimals: 0);
            known.Set(_hours, (latest.TakenAtUtc - earlier.TakenAtUtc).TotalHours);
        }
    }

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var (first, second, hours) = (given[_first], given[_second], given[_hours]);
        var bands = given.Choice(_scheme) == Current ? BacteriaBands.HseCurrent : BacteriaBands.Hse2006;
        var growth = BacteriaGrowth.Between(first, second, hours, given[_uncertainty]);
        var (from, to) = (BacteriaScale.Log10FromCfu(first), BacteriaScale.Log10FromCfu(second));
        paper.Give(_rate, HoursOfADay * growth.Log10PerHour.Value, HoursOfADay * growth.Log10PerHour.ExpandedUncertainty);
        paper.Step("r = (log N2 − log N1) / t", "r = ({0} − {1}) / {2} = {3} 1/h", to, from, hours, growth.Log10PerHour.Value);
        paper.Step("U(r) = 2 × √2 × u / t", "U(r) = 2 × √2 × {0} / {1} = {2} 1/h", given[_uncertainty], hours, growth.Log10PerHour.ExpandedUncertainty);
        var (verdict, sentence) = bands.Of(second) switch
        {
            BacteriaBand.Good => (Verdict.InRange, Texts.Bench_BandGood),
            BacteriaBand.Reasonable => (Verdict.Warning, Texts.Bench_BandReasonable),
            _ => (Verdict.Action, Texts.Bench_BandPoor),
        };
        paper.Find("band", verdict, sentence);
        if (growth is { DoublingHours: { } doubling, ShortestDoublingHours: { } shortest, LongestDoublingHours: { } longest })
        {
            paper.Give(_doubling, doubling);
            paper.Give(_shortest, shortest);
            paper.Give(_longest, longest);
            paper.Give(_poor, BacteriaGrowth.HoursToReach(second, bands.PoorFromCfu, doubling));
            paper.Step("T2 = log 2 / r", "T2 = 0.30103 / {0} = {1} h", growth.Log10PerHour.Value, doubling);
        }
        else
        {
            paper.Find("rise", Verdict.NotMeasured, Texts.Bench_NoDoubling);
        }

        paper.Find("growth", Verdict.NotMeasured, Texts.Bench_GrowthIsNoDate);
        paper.Picture = new BenchCurves(
            Texts.Bench_AxisHours,
            Texts.Bench_AxisPowersOfTen,
            [new BenchCurve("", BenchCurveKind.Dashed, [(0, from), (hours, to)]), new BenchCurve(Texts.Bench_CurveSlides, BenchCurveKind.Points, [(0, from), (hours, to)])],
            [new BenchLevel(Texts.Bench_LevelReasonable, BacteriaScale.Log10FromCfu(bands.ReasonableFromCfu)), new BenchLevel(Texts.Bench_LevelPoor, BacteriaScale.Log10FromCfu(bands.PoorFromCfu))]);
    }
}
