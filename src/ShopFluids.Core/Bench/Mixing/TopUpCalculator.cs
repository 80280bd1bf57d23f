using ShopFluids.Calculations.Mixing;
using ShopFluids.Calculations.Uncertainties;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Bench.Mixing;

/// <summary>The recipe of the after-save page, for any numbers, see docs/calculations/mixing.md.</summary>
internal sealed class TopUpCalculator : BenchCalculator
{
    private readonly BenchNumber _volume = new("volumeLitres", () => Texts.Bench_VolumeNow, "L", 0, 1_000_000) { Usual = 147.9m };
    private readonly BenchNumber _volumeUncertainty = new("volumeUncertaintyLitres", () => Texts.Bench_GiveOrTake, "L", 0, 100_000) { IsOptional = true };
    private readonly BenchNumber _percent = new("concentrationPercent", () => Texts.Bench_ConcentrationNow, "%", 0, 100) { Usual = 8.4m };
    private readonly BenchNumber _percentUncertainty = new("concentrationUncertaintyPercent", () => Texts.Bench_GiveOrTake, "%", 0, 50) { IsOptional = true };
    private readonly BenchNumber _target = new("targetVolumeLitres", () => Texts.Bench_FillTo, "L", 0.1m, 1_000_000) { Usual = 160 };
    private readonly BenchNumber _targetPercent = new("targetPercent", () => Texts.Bench_ConcentrationWanted, "%", 0.01m, 100) { Usual = 8 };
    private readonly BenchNumber _leanest = new("premixMinimumPercent", () => Texts.Bench_LeanestMix, "%", 0, 100) { Usual = 5 };
    private readonly BenchNumber _richest = new("premixMaximumPercent", () => Texts.Bench_RichestMix, "%", 0, 100) { Usual = 12 };
    private readonly BenchNumber _brim = new("brimLitres", () => Texts.Bench_BrimVolume, "L", 0.1m, 1_000_000) { Usual = 180 };
    private readonly BenchNumber _intake = new("pumpIntakeLitres", () => Texts.Bench_IntakeVolume, "L", 0, 1_000_000) { Usual = 58 };
    private readonly BenchNumber _step = new("measurableLitres", () => Texts.Bench_MeasureTo, "L", 0.001m, 1000) { Usual = 0.1m };
    private readonly BenchOutput _water = new("waterLitres", () => Texts.Bench_Water, "L", 1) { IsMain = true };
    private readonly BenchOutput _concentrate = new("concentrateLitres", () => Texts.Bench_Concentrate, "L", 1) { IsMain = true };
    private readonly BenchOutput _remove = new("removeLitres", () => Texts.Bench_RemoveFirst, "L", 1);
    private readonly BenchOutput _premix = new("premixPercent", () => Texts.Bench_PremixPercent, "%", 1);
    private readonly BenchOutput _endsLitres = new("expectedLitres", () => Texts.Bench_EndsWith, "L", 1);
    private readonly BenchOutput _endsPercent = new("expectedPercent", () => Texts.Bench_EndsAt, "%", 1);

    public override string Code => "top-up";

    public override BenchFamily Family => BenchFamily.Mixing;

    public override string Title => Texts.Bench_TopUp;

    public override string Lead => Texts.Bench_TopUpLead;

    public override string Source => Texts.Bench_SourceMassBalance;

    public override IReadOnlyList<Caution> Cautions => [Caution.ConcentrateIntoWater, Caution.GlovesAndGoggles];

    public override IReadOnlyList<BenchInput> Inputs => [_volume, _volumeUncertainty, _percent, _percentUncertainty, _target, _targetPercent, _leanest, _richest, _brim, _intake, _step];

    public override IReadOnlyList<BenchOutput> Outputs => [_water, _concentrate, _remove, _premix, _endsLitres, _endsPercent];

    public override bool UsesSump => true;

    protected override void FillIn(BenchSump sump, BenchKnown known)
    {
        known.Set(_target, sump.Geometry.VolumeLitresAt(sump.FullMarkMm));
        known.Set(_brim, sump.Geometry.BrimLitres);
        known.Set(_intake, sump.Geometry.VolumeLitresAt(sump.PumpIntakeMm));
        known.Set(_volume, sump.Volume?.Value);
        known.Set(_volumeUncertainty, sump.Volume?.ExpandedUncertainty);
        known.Set(_percent, sump.Concentration?.Value);
        known.Set(_percentUncertainty, sump.Concentration?.ExpandedUncertainty, decimals: 2);
        known.Set(_targetPercent, sump.Fluid?.TargetPercent);
        known.Set(_leanest, sump.Fluid?.PremixMinimumPercent);
        known.Set(_richest, sump.Fluid?.PremixMaximumPercent);
    }

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var volume = new Estimate(given[_volume], given.Optional(_volumeUncertainty) ?? 0);
        var percent = new Estimate(given[_percent], given.Optional(_percentUncertainty) ?? 0);
        var recipe = TopUp.Plan(new TopUpRequest(volume, percent, given[_target], given[_targetPercent], given[_leanest], given[_richest], given[_brim], given[_intake], given[_step]));
        paper.Give(_water, recipe.WaterLitres);
        paper.Give(_concentrate, recipe.ConcentrateLitres);
        paper.Give(_remove, recipe.RemoveLitres);
        paper.Give(_premix, recipe.PremixPercent);
        paper.Give(_endsLitres, recipe.ExpectedLitres);
        paper.Give(_endsPercent, recipe.ExpectedPercent, recipe.UncertaintyPercent);
        WriteSteps(given, recipe, paper);
        Say(given, recipe, paper);
        paper.Picture = Draw(given, recipe, paper.Format);
    }

    private void WriteSteps(BenchGiven given, TopUpRecipe recipe, BenchPaper paper)
    {
        var (now, wanted) = (given[_volume] - recipe.RemoveLitres, given[_target]);
        if (wanted > now)
        {
            var exact = ((given[_targetPercent] * wanted) - (given[_percent] * now)) / (wanted - now);
            paper.Step(
                "m = (ct × V1 − c0 × V0) / (V1 − V0)",
                Texts.Bench_TopUpStepPremix,
                given[_targetPercent],
                wanted,
                given[_percent],
                now,
                exact,
                given[_leanest],
                given[_richest]);
        }

        var added = recipe.WaterLitres + recipe.ConcentrateLitres;
        if (added > 0)
        {
            paper.Step("m = 100 × X / (X + W)", "m = 100 × {0} / {1} = {2} %", recipe.ConcentrateLitres, added, recipe.PremixPercent);
            paper.Step(
                "c1 = (c0 × V0 + 100 × X) / V1",
                "c1 = ({0} × {1} + 100 × {2}) / {3} = {4} %",
                given[_percent],
                now,
                recipe.ConcentrateLitres,
                recipe.ExpectedLitres,
                recipe.ExpectedPercent);
        }
    }

    private void Say(BenchGiven given, TopUpRecipe recipe, BenchPaper paper)
    {
        var format = paper.Format;
        var end = format.Say(Texts.Bench_TopUpEnds, format.Volume(recipe.ExpectedLitres), format.Number(recipe.ExpectedPercent, 1), format.Number(recipe.UncertaintyPercent, 1));
        var (verdict, why) = recipe.Case switch
        {
            TopUpCase.NothingToAdd => (Verdict.InRange, Texts.Bench_TopUpNothing),
            TopUpCase.TopUp => (Verdict.InRange, ""),
            TopUpCase.TopUpEndsHigh => (Verdict.Warning, format.Say(Texts.Bench_TopUpHigh, format.Percent(given[_leanest]), format.Number(recipe.EndsHighByPercent, 1))),
            TopUpCase.RemoveFirst => (Verdict.InRange, format.Say(Texts.Bench_TopUpRemove, format.Volume(recipe.RemoveLitres), format.Percent(given[_richest]))),
            TopUpCase.NoRemovalPossible => (Verdict.Warning, Texts.Bench_TopUpNoRemoval),
            _ => (Verdict.InRange, format.Say(Texts.Bench_TopUpSwap, format.Volume(recipe.RemoveLitres))),
        };
        paper.Find("ends", verdict, end);
        if (why.Length > 0)
        {
            paper.Find("why", Verdict.NotMeasured, why);
        }
    }

    private BenchSumps Draw(BenchGiven given, TopUpRecipe recipe, ShopFormat format)
    {
        IReadOnlyList<BenchMark> marks =
        [
            new(Texts.Bench_MarkBrim, given[_brim]),
            new(Texts.Bench_MarkWanted, given[_target]),
            new(Texts.Bench_MarkIntake, given[_intake]),
        ];
        return new BenchSumps(
            given[_brim],
            [
                new BenchSumpDrawing(format.Say(Texts.Bench_VolumeAt, format.Volume(given[_volume]), format.Number(given[_percent], 1)), Texts.Bench_Now, given[_volume], 0, marks),
                new BenchSumpDrawing(format.Say(Texts.Bench_VolumeAt, format.Volume(recipe.ExpectedLitres), format.Number(recipe.ExpectedPercent, 1)), Texts.Bench_After, recipe.ExpectedLitres, recipe.WaterLitres + recipe.ConcentrateLitres, marks),
            ]);
    }
}
