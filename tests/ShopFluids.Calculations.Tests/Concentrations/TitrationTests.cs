using ShopFluids.Calculations.Concentrations;
using ShopFluids.Calculations.Tests.Vectors;
using Xunit;

namespace ShopFluids.Calculations.Tests.Concentrations;

public sealed class TitrationTests
{
    /// <summary>coolant_titration_factor.csv: algebra; that the factor is the product's own is DGUV Regel 109-003, 7.1.1 (read).</summary>
    public static TheoryData<string[]> Coolant => VectorFile.Theory("coolant_titration_factor");

    /// <summary>alkalinity_titration.csv: Standard Methods 2320 B, formula read, numbers computed.</summary>
    public static TheoryData<string[]> Alkalinity => VectorFile.Theory("alkalinity_titration");

    [Theory]
    [MemberData(nameof(Coolant))]
    public void Percent_ComputedExamples_Agree(string[] row)
    {
        var n = row.Select(VectorFile.Number).ToArray();
        Assert.Equal(n[7], Titration.Percent(n[1], n[2], n[0], n[3], n[4], n[5], n[6]), 9);
    }

    [Theory]
    [MemberData(nameof(Alkalinity))]
    public void Alkalinity_StandardMethods2320B_Agrees(string[] row)
    {
        var n = row.Select(VectorFile.Number).ToArray();
        Assert.Equal(n[3], Titration.AlkalinityMgPerLitreCaCO3(n[2], n[1], n[0]), 9);
        Assert.Equal(n[4], Titration.AlkalinityMilliequivalentsPerLitre(n[2], n[1], n[0]), 9);
    }

    // A public calculator prints 200 for these inputs; its own formula gives 20.
    [Fact]
    public void Alkalinity_KnownWrongPrint_IsNotFollowed() => Assert.Equal(20, Titration.AlkalinityMgPerLitreCaCO3(2, 0.02, 100), 9);

    [Fact]
    public void Percent_NothingButConcentrate_IsAccepted() => Assert.Equal(100, Titration.Percent(200, 0, 0.5, 0.1, 0.1, 10, 10));

    [Theory]
    [InlineData("titreMillilitres", 0.3, 0.4, 0.5, 0.1, 0.1, 10, 10)]
    [InlineData("titreMillilitres", 300, 0, 0.5, 0.1, 0.1, 10, 10)]
    [InlineData("titreMillilitres", double.NaN, 0, 0.5, 0.1, 0.1, 10, 10)]
    [InlineData("blankMillilitres", 5, -0.1, 0.5, 0.1, 0.1, 10, 10)]
    [InlineData("factorPercentPerMillilitre", 5, 0, 0, 0.1, 0.1, 10, 10)]
    [InlineData("normality", 5, 0, 0.5, 0, 0.1, 10, 10)]
    [InlineData("referenceNormality", 5, 0, 0.5, 0.1, 0, 10, 10)]
    [InlineData("sampleMillilitres", 5, 0, 0.5, 0.1, 0.1, 0, 10)]
    [InlineData("referenceSampleMillilitres", 5, 0, 0.5, 0.1, 0.1, 10, 0)]
    public void Percent_OutOfRange_IsRefusedByName(
        string argument, double titre, double blank, double factor, double normality, double referenceNormality, double sample, double referenceSample) =>
        Assert.Throws<ArgumentOutOfRangeException>(
            argument, () => Titration.Percent(titre, blank, factor, normality, referenceNormality, sample, referenceSample));

    [Theory]
    [InlineData("titreMillilitres", -1, 0.02, 100)]
    [InlineData("normality", 1, 0, 100)]
    [InlineData("sampleMillilitres", 1, 0.02, 0)]
    public void Alkalinity_OutOfRange_IsRefusedByName(string argument, double titre, double normality, double sample)
    {
        Assert.Throws<ArgumentOutOfRangeException>(argument, () => Titration.AlkalinityMgPerLitreCaCO3(titre, normality, sample));
        Assert.Throws<ArgumentOutOfRangeException>(argument, () => Titration.AlkalinityMilliequivalentsPerLitre(titre, normality, sample));
    }
}
