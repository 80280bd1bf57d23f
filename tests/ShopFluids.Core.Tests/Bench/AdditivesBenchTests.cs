using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Database;
using ShopFluids.Rules;
using Xunit;

namespace ShopFluids.Core.Tests.Bench;

/// <summary>The bench gives what the worked examples of docs/calculations/additives.md give.</summary>
public sealed class AdditivesBenchTests
{
    [Theory]
    [InlineData("perLitre", 1.5, 600)]
    [InlineData("ppm", 1500, 600)]
    [InlineData("active", 150, 500)]
    public void Dose_ThreeWaysOfSaying_MatchTheWorkedExample(string said, double amount, double millilitres)
    {
        var typed = BenchRuns.Usual(BenchRuns.Calculator("dose"));
        typed["saidAs"] = new BenchTyped(said, null);
        typed["amount"] = BenchRuns.Number((decimal)amount);
        typed["densityKgPerLitre"] = BenchRuns.Number(1.2m);

        var answer = BenchRuns.Answer(BenchRuns.Calculator("dose").Run(typed, BenchRuns.Format));

        Assert.Equal(millilitres, answer.Value("wantedMillilitres"), 9);
        Assert.Equal(Verdict.InRange, Assert.Single(answer.Findings).Verdict);
    }

    [Fact]
    public void Dose_SecondInTheWeek_GivesWhatThePeriodLeaves()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("dose"));

        Assert.Equal((800, 600, 600), (answer.Value("wantedMillilitres"), answer.Value("allowedMillilitres"), answer.Value("addMillilitres")));
        Assert.Equal(Verdict.Warning, Assert.Single(answer.Findings).Verdict);
        Assert.Equal("D2 = 400 × 3 − 600 = 600 mL left of the period", answer.Steps[2].Numbers);
    }

    [Fact]
    public void Dose_LastOneTooRecent_IsNothingAndSaysHowLongToWait()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("dose", ("lastDoseHoursAgo", 20)));

        Assert.Equal((0, 4), (answer.Value("addMillilitres"), answer.Value("waitHours")));
        Assert.Equal("Add nothing: too soon, wait 4.0 h", Assert.Single(answer.Findings).Sentence);
    }

    [Fact]
    public void Dose_PeriodUsedUp_IsNothing()
    {
        var answer = BenchRuns.Answer(BenchRuns.Run("dose", ("givenMillilitres", 1200)));

        Assert.Equal(0, answer.Value("addMillilitres"));
        Assert.Equal(Verdict.Action, Assert.Single(answer.Findings).Verdict);
    }

    [Fact]
    public void Dose_MoreMillilitresThanALitre_IsRefusedAtTheDose()
    {
        var fault = BenchRuns.Fault(BenchRuns.Run("dose", ("amount", 1500)));

        Assert.Equal(("amount", FieldProblem.DoesNotFit), (fault.Field, fault.Problem));
    }
}
