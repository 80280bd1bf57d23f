using FsCheck.Xunit;
using ShopFluids.Calculations.Additives;
using Xunit;

namespace ShopFluids.Calculations.Tests.Additives;

[Properties(MaxTest = 20_000, Replay = "20260101,20260103")]
public sealed class DoseTests
{
    private static readonly DoseLabel Label = new(2, 24, 3, 168);

    // The worked examples of docs/calculations/additives.md.
    [Fact]
    public void Amounts_ThreeWaysOfSaying_MatchTheWorkedExample()
    {
        Assert.Equal(600, Dose.FromMillilitresPerLitre(400, 1.5), 9);
        Assert.Equal(600, Dose.FromPpmByVolume(400, 1500), 9);

        // 400 L × 150 mg/L = 60 g active; a 10 % product holds 0.12 kg/L, so 500 mL.
        Assert.Equal(500, Dose.FromActiveMgPerLitre(400, 150, 10, 1.2), 9);
    }

    [Fact]
    public void Make_SecondDoseInTheWeek_GivesWhatThePeriodLeaves()
    {
        var plan = DosePlan.Make(400, 800, Label, [new(96, 600)], 10);
        Assert.Equal(new DosePlan(DoseDecision.GiveLess, 600, 600, 0), plan);
    }

    [Fact]
    public void Make_NothingBefore_GivesTheWantedDoseRoundedDown()
    {
        Assert.Equal(new DosePlan(DoseDecision.Give, 790, 800, 0), DosePlan.Make(400, 799, Label, [], 10));
        Assert.Equal(new DosePlan(DoseDecision.Give, 800, 800, 0), DosePlan.Make(400, 800, Label, [], 10));
        Assert.Equal(new DosePlan(DoseDecision.GiveLess, 800, 800, 0), DosePlan.Make(400, 800.1, Label, [], 10));
        Assert.Equal(new DosePlan(DoseDecision.Give, 0, 800, 0), DosePlan.Make(400, 0, Label, [], 10));
    }

    [Theory]
    [InlineData(5, 2, DoseDecision.TooLittleToMeasure, 0)]
    [InlineData(9.9, 2, DoseDecision.TooLittleToMeasure, 0)]
    [InlineData(10, 2, DoseDecision.Give, 10)]
    [InlineData(100, 0.02, DoseDecision.TooLittleToMeasure, 0)]
    [InlineData(100, 0.025, DoseDecision.GiveLess, 10)]
    public void Make_LessThanOneStep_SaysThatItCannotBeMeasured(double wanted, double mostPerLitre, DoseDecision decision, double given)
    {
        var plan = DosePlan.Make(400, wanted, new DoseLabel(mostPerLitre), [], 10);
        Assert.Equal((decision, given), (plan.Decision, plan.Millilitres));
    }

    [Theory]
    [InlineData(23.5, 0.5, DoseDecision.TooSoon)]
    [InlineData(24, 0, DoseDecision.Give)]
    public void Make_LastDoseRecent_SaysHowLongToWait(double hoursAgo, double wait, DoseDecision decision)
    {
        var plan = DosePlan.Make(400, 100, Label, [new(hoursAgo, 100), new(100, 100)], 10);
        Assert.Equal((decision, wait, wait > 0 ? 0 : 100), (plan.Decision, plan.HoursToWait, plan.Millilitres));
        Assert.Equal(wait > 0 ? 0 : 800, plan.MostMillilitresNow);
    }

    [Theory]
    [InlineData(168, 1200, DoseDecision.PeriodUsedUp, 0)]
    [InlineData(168.01, 1200, DoseDecision.Give, 100)]
    [InlineData(100, 1195, DoseDecision.PeriodUsedUp, 0)]
    [InlineData(100, 1190, DoseDecision.GiveLess, 10)]
    [InlineData(100, 5000, DoseDecision.PeriodUsedUp, 0)]
    public void Make_PeriodNearlyUsedUp_LeavesTheRest(double hoursAgo, double given, DoseDecision decision, double expected)
    {
        var plan = DosePlan.Make(400, 100, Label, [new(hoursAgo, given)], 10);
        Assert.Equal((decision, expected), (plan.Decision, plan.Millilitres));
    }

    [Fact]
    public void Make_DoseOfNothingBefore_DoesNotCount() =>
        Assert.Equal(DoseDecision.Give, DosePlan.Make(400, 100, Label, [new(1, 0)], 10).Decision);

    [Fact]
    public void Make_LabelWithoutPeriod_LimitsTheSingleDoseAlone() =>
        Assert.Equal(new DosePlan(DoseDecision.GiveLess, 800, 800, 0), DosePlan.Make(400, 5000, new DoseLabel(2), [new(0, 5000)], 1));

    [Property]
    public void Make_AnyDoses_NeverPassesTheLabel(ushort litres, ushort wanted, ushort[] before, byte step)
    {
        PastDose[] doses = [.. before.Select(value => new PastDose(value % 400, value / 10.0))];
        var (fluid, measurable) = (1 + (litres / 100.0), (1 + step) / 10.0);
        var plan = DosePlan.Make(fluid, wanted, Label, doses, measurable);
        Assert.InRange(plan.Millilitres, 0, Math.Min(wanted, 2 * fluid) + 1e-6);
        Assert.True(plan.Millilitres is 0 || doses.All(dose => dose.Millilitres is 0 || dose.HoursAgo >= 24));
        var inPeriod = doses.Where(dose => dose.HoursAgo <= 168).Sum(dose => dose.Millilitres);
        Assert.True(plan.Millilitres is 0 || plan.Millilitres + inPeriod <= (3 * fluid) + 1e-6);
        Assert.Equal(Math.Round(plan.Millilitres / measurable), plan.Millilitres / measurable, 6);
    }

    [Fact]
    public void Inputs_OutOfRange_AreRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("fluidLitres", () => Dose.FromMillilitresPerLitre(-1, 1));
        Assert.Throws<ArgumentOutOfRangeException>("millilitresPerLitre", () => Dose.FromMillilitresPerLitre(1, 1001));
        Assert.Throws<ArgumentOutOfRangeException>("fluidLitres", () => Dose.FromPpmByVolume(1_000_001, 1));
        Assert.Throws<ArgumentOutOfRangeException>("ppmByVolume", () => Dose.FromPpmByVolume(1, 1_000_001));
        Assert.Throws<ArgumentOutOfRangeException>("fluidLitres", () => Dose.FromActiveMgPerLitre(-1, 1, 1, 1));
        Assert.Throws<ArgumentOutOfRangeException>("activeMgPerLitre", () => Dose.FromActiveMgPerLitre(1, -1, 1, 1));
        Assert.Throws<ArgumentOutOfRangeException>("activePercentByMass", () => Dose.FromActiveMgPerLitre(1, 1, 0, 1));
        Assert.Throws<ArgumentOutOfRangeException>("densityKgPerLitre", () => Dose.FromActiveMgPerLitre(1, 1, 1, 0.4));
        Assert.Throws<ArgumentOutOfRangeException>("MostMillilitresPerLitre", () => new DoseLabel(0));
        Assert.Throws<ArgumentOutOfRangeException>("LeastHoursBetweenDoses", () => new DoseLabel(1, -1));
        Assert.Throws<ArgumentOutOfRangeException>("MostMillilitresPerLitreInPeriod", () => new DoseLabel(2, 0, 1.9, 24));
        Assert.Throws<ArgumentOutOfRangeException>("PeriodHours", () => new DoseLabel(2, 0, 2, 0));
        Assert.Throws<ArgumentOutOfRangeException>("PeriodHours", () => new DoseLabel(2, 0, null, -1));
        Assert.Throws<ArgumentOutOfRangeException>("fluidLitres", () => DosePlan.Make(0, 1, Label, [], 1));
        Assert.Throws<ArgumentOutOfRangeException>("wantedMillilitres", () => DosePlan.Make(1, -1, Label, [], 1));
        Assert.Throws<ArgumentOutOfRangeException>("measurableMillilitres", () => DosePlan.Make(1, 1, Label, [], 0));
        Assert.Throws<ArgumentOutOfRangeException>("before", () => DosePlan.Make(1, 1, Label, [new(-1, 1)], 1));
        Assert.Throws<ArgumentOutOfRangeException>("before", () => DosePlan.Make(1, 1, Label, [new(1, double.NaN)], 1));
        Assert.Throws<ArgumentNullException>("label", () => DosePlan.Make(1, 1, null!, [], 1));
        Assert.Throws<ArgumentNullException>("before", () => DosePlan.Make(1, 1, Label, null!, 1));
    }
}
