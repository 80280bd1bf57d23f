using FsCheck.Xunit;
using ShopFluids.Calculations.Additives;
using Xunit;

namespace ShopFluids.Calculations.Tests.Additives;

[Properties(MaxTest = 20_000, Replay = "20260101,20260103")]
public sealed class DoseStrengthTests
{
    // The worked examples of docs/calculations/additives.md: 600 mL, and 60 g, in 400 L.
    [Theory]
    [InlineData(600, DoseMeasure.MillilitresPerLitre, 1.5)]
    [InlineData(600, DoseMeasure.PercentByVolume, 0.15)]
    [InlineData(600, DoseMeasure.PpmByVolume, 1500)]
    [InlineData(60, DoseMeasure.GramsPerLitre, 0.15)]
    [InlineData(60, DoseMeasure.MilligramsPerKilogram, 150)]
    public void Of_EachMeasure_MatchesTheWorkedExample(double product, DoseMeasure measure, double strength) =>
        Assert.Equal(strength, DoseStrength.Of(product, 400, measure), 9);

    [Fact]
    public void Grams_OfADenseProduct_LeadThereAndBack()
    {
        Assert.Equal(720, DoseStrength.Grams(600, 1.2), 9);
        Assert.Equal(600, DoseStrength.Millilitres(720, 1.2), 9);
    }

    [Property]
    public void Of_AnyAmount_GivesTheAmountBack(ushort tenths, ushort litres, byte which)
    {
        var measure = Enum.GetValues<DoseMeasure>()[which % 5];
        var (product, fluid) = (tenths / 10.0, litres + 1.0);

        Assert.Equal(product, DoseStrength.Of(product, fluid, measure) * DoseStrength.PerLitre(measure) * fluid, 6);
    }

    [Theory]
    [InlineData(-1, 400)]
    [InlineData(1.1e9, 400)]
    [InlineData(600, 0)]
    [InlineData(600, 1_000_001)]
    [InlineData(double.NaN, 400)]
    public void Of_OutsideTheRanges_IsRefused(double product, double litres) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => DoseStrength.Of(product, litres, DoseMeasure.MillilitresPerLitre));

    [Fact]
    public void PerLitre_NoMeasure_IsRefused() => Assert.Throws<ArgumentOutOfRangeException>(() => DoseStrength.PerLitre(default));

    [Theory]
    [InlineData(0.49)]
    [InlineData(3.01)]
    public void Grams_DensityOfNoProduct_IsRefused(double density)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => DoseStrength.Grams(1, density));
        Assert.Throws<ArgumentOutOfRangeException>(() => DoseStrength.Millilitres(1, density));
    }
}
