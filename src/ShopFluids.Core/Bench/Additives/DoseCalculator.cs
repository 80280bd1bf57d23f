using ShopFluids.Calculations.Additives;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Bench.Additives;

/// <summary>An additive by its data sheet, held against its label, see docs/calculations/additives.md.</summary>
internal sealed class DoseCalculator : BenchCalculator
{
    private const string PerLitre = "perLitre";
    private const string Ppm = "ppm";
    private const string Active = "active";

    private readonly BenchNumber _fluid = new("fluidLitres", () => Texts.Bench_FluidInSump, "L", 0.1m, 1_000_000) { Usual = 400 };
    private readonly BenchChoice _said = new("saidAs", () => Texts.Bench_DoseSaidAs,
    [
        new(PerLitre, () => Texts.Bench_DosePerLitre),
        new(Ppm, () => Texts.Bench_DosePpm),
        new(Active, () => Texts.Bench_DoseActive),
    ]);
    private readonly BenchNumber _amount = new("amount", () => Texts.Bench_DoseAmount, "", 0, 1_000_000) { Usual = 2 };
    private readonly BenchNumber _active = new("activePercent", () => Texts.Bench_DoseActivePercent, "%", 0.01m, 100) { Usual = 10, Hint = () => Texts.Bench_DoseActiveHint };
    private readonly BenchNumber _density = new("densityKgPerLitre", () => Texts.Bench_DoseDensity, "kg/L", 0.5m, 3) { Usual = 1, Hint = () => Texts.Bench_DoseActiveHint };
    private readonly BenchNumber _most = new("mostMillilitresPerLitre", () => Texts.Bench_DoseMost, "mL/L", 0.001m, 1000) { Usual = 2 };
    private readonly BenchNumber _apart = new("leastHoursBetweenDoses", () => Texts.Bench_DoseApart, "h", 0, 100_000) { Usual = 24 };
    private readonly BenchNumber _mostPeriod = new("mostMillilitresPerLitreInPeriod", () => Texts.Bench_DoseMostPeriod, "mL/L", 0.001m, 1000) { Usual = 3, IsOptional = true };
    private readonly BenchNumber _period = new("periodHours", () => Texts.Bench_DosePeriod, "h", 0, 100_000) { Usual = 168 };
    private readonly BenchNumber _last = new("lastDoseHoursAgo", () => Texts.Bench_DoseLast, "h", 0, 100_000) { Usual = 96, IsOptional = true, Hint = () => Texts.Bench_DoseLastHint };
    private readonly BenchNumber _given = new("givenMillilitres", () => Texts.Bench_DoseGiven, "mL", 0, 1_000_000_000) { Usual = 600 };
    private readonly BenchNumber _step = new("measurableMillilitres", () => Texts.Bench_MeasureTo, "mL", 0.001m, 1_000_000) { Usual = 10 };
    private readonly BenchOutput _add = new("addMillilitres", () => Texts.Bench_DoseAdd, "mL", 1) { IsMain = true };
    private readonly BenchOutput _wanted = new("wantedMillilitres", () => Texts.Bench_DoseAsked, "mL", 1);
    private readonly BenchOutput _allowed = new("allowedMillilitres", () => Texts.Bench_DoseAllowed, "mL", 1);
    private readonly BenchOutput _wait = new("waitHours", () => Texts.Bench_DoseWait, "h", 1);

    public override string Code => "dose";

    public override BenchFamily Family => BenchFamily.Mixing;

    public override string Title => Texts.Bench_Dose;

    public override string Lead => Texts.Bench_DoseLead;

    public override string Source => Texts.Bench_DoseSource;

    public override IReadOnlyList<Caution> Cautions => [Caution.BiocideByLabel, Caution.GlovesAndGoggles];

    public override IReadOnlyList<BenchInput> Inputs => [_fluid, _said, _amount, _active, _density, _most, _apart, _mostPeriod, _period, _last, _given, _step];

    public override IReadOnlyList<BenchOutput> Outputs => [_add, _wanted, _allowed, _wait];

    public override bool UsesSump => true;

    protected override void FillIn(BenchSump sump, BenchKnown known) => known.Set(_fluid, sump.Volume?.Value);

    protected override void Work(BenchGiven given, BenchPaper paper)
    {
        var wanted = Wanted(given, paper);
        var label = new DoseLabel(given[_most], given[_apart], given.Optional(_mostPeriod), given[_period]);

        // All of the period counts as given at the time of the last dose: the label's limits come out the same.
        IReadOnlyList<PastDose> before = given.Optional(_last) is { } hoursAgo ? [new PastDose(hoursAgo, given[_given])] : [];
        var plan = DosePlan.Make(given[_fluid], wanted, label, before, given[_step]);
        paper.Give(_add, plan.Millilitres);
        paper.Give(_wanted, wanted);
        paper.Give(_allowed, plan.MostMillilitresNow);
        paper.Give(_wait, plan.HoursToWait);
        paper.Step("D1 = V × d1", Texts.Bench_DoseStepOne, given[_fluid], given[_most], given[_fluid] * given[_most]);
        if (label.MostMillilitresPerLitreInPeriod is { } period)
        {
            var counted = before.Where(d => d.HoursAgo <= label.PeriodHours).Sum(d => d.Millilitres);
            paper.Step("D2 = V × d2 − G", Texts.Bench_DoseStepPeriod, given[_fluid], period, counted, Math.Max(0, (given[_fluid] * period) - counted));
        }

        paper.Step("D = min(D1, D2)", Texts.Bench_DoseStepLeast, plan.MostMillilitresNow, plan.Millilitres);
        Say(plan, paper);
        paper.Picture = new BenchBars("mL", [new(Texts.Bench_BarAsked, wanted, 0), new(Texts.Bench_BarAllowed, plan.MostMillilitresNow, 0), new(Texts.Bench_BarAddNow, plan.Millilitres, 0)]);
    }

    private double Wanted(BenchGiven given, BenchPaper paper)
    {
        var (fluid, amount) = (given[_fluid], given[_amount]);
        switch (given.Choice(_said))
        {
            case PerLitre:
                var said = Dose.FromMillilitresPerLitre(fluid, amount);
                paper.Step("D = V × d", "D = {0} × {1} = {2} mL", fluid, amount, said);
                return said;
            case Ppm:
                var byVolume = Dose.FromPpmByVolume(fluid, amount);
                paper.Step("D = V × p / 1000", "D = {0} × {1} / 1000 = {2} mL", fluid, amount, byVolume);
                return byVolume;
            default:
                var byMatter = Dose.FromActiveMgPerLitre(fluid, amount, given[_active], given[_density]);
                paper.Step("D = V × m / (10 × a × ρ)", "D = {0} × {1} / (10 × {2} × {3}) = {4} mL", fluid, amount, given[_active], given[_density], byMatter);
                return byMatter;
        }
    }

    private static void Say(DosePlan plan, BenchPaper paper)
    {
        var (verdict, sentence) = plan.Decision switch
        {
            DoseDecision.Give => (Verdict.InRange, Texts.Bench_DoseGive),
            DoseDecision.GiveLess => (Verdict.Warning, Texts.Bench_DoseGiveLess),
            DoseDecision.TooSoon => (Verdict.Action, paper.Format.Say(Texts.Bench_DoseTooSoon, paper.Format.Number(plan.HoursToWait, 1))),
            _ => (Verdict.Action, Texts.Bench_DoseUsedUp),
        };
        paper.Find("label", verdict, sentence);
    }

    protected override BenchInput? Meant(string? parameter) =>
        parameter is "millilitresPerLitre" or "ppmByVolume" or "activeMgPerLitre" or "wantedMillilitres" ? _amount : null;
}
