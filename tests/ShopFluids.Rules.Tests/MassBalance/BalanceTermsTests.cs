using ShopFluids.Calculations.Balances;
using ShopFluids.Calculations.Uncertainties;
using ShopFluids.Calculations.Volumes;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.MassBalance;

namespace ShopFluids.Rules.Tests.MassBalance;

/// <summary>What a reading and a movement are to the balance.</summary>
public sealed class BalanceTermsTests
{
    private static readonly Estimate InSump = new(6, 0.2);

    // 2 m2 of surface hold 2 L for each millimetre: a rule held to 4 mm tells 8 L, and to 10 mm 20 L.
    [Theory]
    [InlineData(0, 8)]
    [InlineData(10, 20)]
    public void Of_LevelInAWideSump_IsAsUncertainAsItsSurfaceMakesIt(int levelWithin, int litres)
    {
        var sump = Some.Sump() with { Geometry = new RectangularSump(2000, 1000, 400) };

        var term = BalanceTerms.Of(Reading(levelWithin, 0), sump, Some.Now.AddDays(-3), hoursPerDay: 8);

        Assert.Equal((500.0, litres), (term?.VolumeLitres.Value, Math.Round(term?.VolumeLitres.ExpandedUncertainty ?? 0, 9)));
        Assert.Equal((3.0, 24.0), (term?.Day, term?.RunningHours));
    }

    // A hand refractometer tells 0.2 % at best.
    [Theory]
    [InlineData(0.1, 0.2)]
    [InlineData(0.5, 0.5)]
    public void Of_Concentration_IsNoSurerThanAHandRefractometer(double stated, double counted) =>
        Assert.Equal(counted, BalanceTerms.Of(Reading(0, (decimal)stated), Some.Sump(), Some.Now)?.ConcentrationPercent.ExpandedUncertainty);

    // 10 L good to 10 %: 1 L, and a tenth of the strength. Of a swap what was put in comes before what was taken out, of the mix in the sump.
    [Fact]
    public void Of_Swap_IsAnAdditionAndARemoval()
    {
        Movement[] expected = [Movement.Addition(2, new(10, 1), new(20, 2)), Movement.Removal(2, new(5, 0.5), InSump)];

        Assert.Equal(expected, Terms(8, 2, 5));
    }

    [Theory]
    [InlineData(8, 2, 0, true)]
    [InlineData(0, 0, 5, false)]
    public void Of_OnlyOneOfThem_IsOneTerm(int water, int concentrate, int removed, bool isAddition) =>
        Assert.Equal([isAddition], Terms(water, concentrate, removed).Select(t => t.IsAddition));

    [Fact]
    public void Of_NothingMoved_IsNoTerm() => Assert.Empty(Terms(0, 0, 0));

    private static IEnumerable<Movement> Terms(double water, double concentrate, double removed) =>
        BalanceTerms.Of(new MovementFacts(Some.Now.AddDays(2), water, concentrate, removed), Some.Now, InSump, pouredWithinPercent: 10);

    private static ReadingFacts Reading(decimal levelWithin, decimal percentWithin) =>
        Some.Reading(new(ParameterCodes.Level, "", 250, levelWithin), new(ParameterCodes.Concentration, "", 6, percentWithin));
}
