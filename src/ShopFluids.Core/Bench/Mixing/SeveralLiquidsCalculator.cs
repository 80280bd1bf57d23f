using ShopFluids.Calculations.Mixing;
using ShopFluids.Calculations.Uncertainties;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Bench.Mixing;

/// <summary>What any number of liquids give together, see docs/calculations/mixing.md.</summary>
internal sealed class SeveralLiquidsCalculator : BenchCalculator
{
    private const int MostDrawn = 12;

    private readonly BenchSeries _litres = new("volumesLitres", () => Texts.Bench_LiquidVolumes, "L", 0, 1_000_000, 1) { Usual = [150, 40, 10], Hint = () => Texts.Bench_LiquidVolumesHint };
    private readonly BenchSeries _percents = new("concentrationsPercent", () => Texts.Bench_LiquidPercents, "%", 0, 100, 1) { Usual = [4, 10, 0], Hint = () => Texts.Bench_LiquidPercentsHint };
    private readonly BenchNumber _litresUncertainty = new("volumeUncertaintyLitres", () => Texts.Bench_VolumesGiveOrTake, "L", 0, 100_000) { IsOptional = true };
    private readonly BenchNumber _percentUncertainty = new("concentrationUncertaintyPercent", () => Texts.Bench_PercentsGiveOrTake, "%", 0, 50) { IsOptional = true };
    private readonly BenchOutput _together = new("blendLitres", () => Texts.Bench_EndsWith, "L", 1) { IsMain = true };
    private readonly BenchOutput _percent = new("blendPercent", () => Texts.Bench_EndsAt, "%", 2) { IsMain = true };
    private readonly BenchOutput _concentrate = new("concentrateLitres", () => Texts.Bench_ConcentrateInBlend, "L", 2);

    public override string Code => "blend-of-several";

    public override BenchFamily Family => BenchFamily.Mixing;

    public override string Title => Texts.Bench_Several;

    public override string Lead => Texts.Bench_SeveralLead;

    public override string Source => Texts.Bench_SeveralSource;

    public override IReadOnlyList<Caution> Cautions => [Caution.ConcentrateIntoWater, Caution.GlovesAndGoggles];

    public override IReadOnlyList<BenchInput> Inputs => [_litres, _percents, _litresUncertainty, _percentUncertainty];

    public override IReadOnlyList<BenchOutput> Outputs => [_together, _percent, _concentrate];

    public override bool UsesSump => true;

    // What is in the sump, and the room above it filled with fluid as it should be.
    protected override void FillIn(BenchSump sump, BenchKnown known)
    {
        if (sump is { Volume: { } volume, Concentration: { } percent, Fluid: { } fluid })
        {
            var room = sump.Geometry.VolumeLitresAt(sump.FullMarkMm) - volume.Value;
            known.Set(_litres, room > 0 ? [volume.Value, room] : [volume.Value]);
            known.Set(_percents, room > 0 ? [percent.Value, (double)fluid.TargetPercent] : [percent.Value]);
            known.Set(_litresUncertainty, volume.ExpandedUncertainty);
            known.Set(_percentUncertainty, percent.ExpandedUncertainty, decimals: 2);
        }
    }

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var (litres, percents) = (given.Series(_litres), given.Series(_percents));
        if (litres.Count != percents.Count)
        {
            throw new ArgumentException(paper.Format.Say(Texts.Bench_SeveralCounts, litres.Count, percents.Count), _percents.Code);
        }

        var (unsure, unsurePercent) = (given.Optional(_litresUncertainty) ?? 0, given.Optional(_percentUncertainty) ?? 0);
        var blend = Blend.Of([.. litres.Zip(percents, (v, c) => new BlendPart(new Estimate(v, unsure), new Estimate(c, unsurePercent)))]);
        paper.Give(_together, blend.Litres);
        paper.Give(_percent, blend.Percent);
        paper.Give(_concentrate, blend.Litres.Value * blend.Percent.Value / 100);
        paper.Step("V = Σ Vi", Sum(litres.Count, "V = {0} = {1} L", i => $"{{{i}}}"), [.. litres, blend.Litres.Value]);
        paper.Step("c = Σ ci × Vi / V", Sum(litres.Count, "c = ({0}) / {2} = {1} %", i => $"{{{i}}} × {{{litres.Count + 2 + i}}}"), [.. percents, blend.Percent.Value, blend.Litres.Value, .. litres]);
        paper.Step("U(V) = √(Σ U(Vi)²)", "U(V) = √({0} × {1}²) = {2} L", litres.Count, unsure, blend.Litres.ExpandedUncertainty);
        paper.Step("U(c) = √(Σ (Vi × U(ci) / V)² + Σ ((ci − c) × U(Vi) / V)²)", Texts.Bench_SeveralStepUncertainty, unsurePercent, unsure, blend.Percent.ExpandedUncertainty);
        if (litres.Count <= MostDrawn)
        {
            paper.Picture = new BenchBars("L", [.. litres.Zip(percents, (v, c) => new BenchBar(paper.Format.Percent(c), v, 1))]);
        }
    }

    protected override BenchInput? Meant(string? parameter) => parameter == "parts" ? _litres : null;

    // The terms of all liquids with plus signs between them, put into a pattern with the result behind them.
    private static string Sum(int count, string pattern, Func<int, string> term) =>
        pattern
            .Replace("{2}", $"{{{count + 1}}}", StringComparison.Ordinal)
            .Replace("{1}", $"{{{count}}}", StringComparison.Ordinal)
            .Replace("{0}", string.Join(" + ", Enumerable.Range(0, count).Select(term)), StringComparison.Ordinal);
}
