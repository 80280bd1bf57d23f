using FsCheck.Xunit;
using ShopFluids.Calculations.Tests.Vectors;
using ShopFluids.Calculations.Volumes;
using Xunit;

namespace ShopFluids.Calculations.Tests.Volumes;

/// <summary>Check values: tank_volumes.csv, computed from closed forms and exact unit definitions.</summary>
[Properties(MaxTest = 500, Replay = "20260101,20260103")]
public sealed class RectangularSumpTests
{
    private static readonly RectangularSump Box = new(1200, 600, 400);

    [Theory]
    [InlineData("L=1200,W=600,H=400 mm full", 400)]
    [InlineData("L=1200,W=600,H=400 mm, depth 250", 250)]
    public void VolumeLitresAt_ClosedForm_Agrees(string dimensions, double levelMm) =>
        Assert.Equal(Printed(dimensions), Box.VolumeLitresAt(levelMm), 9);

    [Fact]
    public void BrimLitres_BoxInInches_AgreesWithTheClosedForm()
    {
        var box = new RectangularSump(LengthUnits.MillimetresFromInches(48), LengthUnits.MillimetresFromInches(24), LengthUnits.MillimetresFromInches(12));
        Assert.Equal(Printed("48 x 24 x 12 in"), box.BrimLitres, 6);
    }

    // The worked example of docs/calculations/volumes.md.
    [Fact]
    public void VolumeLitresAt_WithDisplacedVolume_MatchesTheWorkedExample()
    {
        var sump = new RectangularSump(1200, 600, 400, 28);
        Assert.Equal(260, sump.BrimLitres, 9);
        Assert.Equal(162.5, sump.VolumeLitresAt(250), 9);
        Assert.Equal(0.65, sump.SurfaceLitresPerMmAt(250), 9);
        var estimate = LevelVolume.Estimate(sump, 250, 5);
        Assert.Equal(162.5, estimate.Value, 9);
        Assert.Equal(1.876, estimate.ExpandedUncertainty, 3);
    }

    [Property]
    public void LevelMmAt_OfVolumeLitresAt_IsTheInverse(ushort length, ushort width, ushort height, byte displaced, ushort level)
    {
        var sump = Some(length, width, height, displaced);
        var levelMm = sump.BrimMm * level / ushort.MaxValue;
        Assert.Equal(levelMm, sump.LevelMmAt(sump.VolumeLitresAt(levelMm)), tolerance: 1e-9 * sump.BrimMm);
        Assert.Equal(sump.BrimMm, sump.LevelMmAt(sump.BrimLitres), tolerance: 1e-9 * sump.BrimMm);
    }

    [Property]
    public void VolumeLitresAt_HigherLevel_IsMoreAndNeverNegative(ushort length, ushort width, ushort height, byte displaced, ushort level)
    {
        var sump = Some(length, width, height, displaced);
        var lower = sump.VolumeLitresAt(sump.BrimMm * level / (ushort.MaxValue + 1.0));
        var higher = sump.VolumeLitresAt(sump.BrimMm * (level + 1) / (ushort.MaxValue + 1.0));
        Assert.True(lower >= 0 && higher > lower && higher <= sump.BrimLitres);
        Assert.Equal(0, sump.VolumeLitresAt(0));
    }

    [Property]
    public void BrimLitres_Displaced_IsTheBoxLessIt(ushort length, ushort width, ushort height, byte displaced)
    {
        var sump = Some(length, width, height, displaced);
        var box = sump.LengthMm * sump.WidthMm * sump.BrimMm / 1e6;
        Assert.Equal(box - sump.DisplacedLitres, sump.BrimLitres, tolerance: 1e-9 * box);
    }

    [Fact]
    public void LevelMmAt_SumOfRoundedAmountsPastTheBrimByItsLastDigits_IsTheBrim() => Assert.Equal(400, Box.LevelMmAt(288 + 1e-9));

    [Theory]
    [InlineData(-0.1)]
    [InlineData(400.1)]
    [InlineData(double.NaN)]
    public void VolumeLitresAt_OutsideTheSump_IsRefusedByName(double outside)
    {
        Assert.Throws<ArgumentOutOfRangeException>("levelMm", () => Box.VolumeLitresAt(outside));
        Assert.Throws<ArgumentOutOfRangeException>("levelMm", () => Box.SurfaceLitresPerMmAt(outside));
        Assert.Throws<ArgumentOutOfRangeException>("levelMm", () => LevelVolume.Estimate(Box, outside, 1));
        Assert.Throws<ArgumentOutOfRangeException>("volumeLitres", () => Box.LevelMmAt(outside));
    }

    [Theory]
    [InlineData("LengthMm", 0, 600, 400, 0)]
    [InlineData("LengthMm", 100_001, 600, 400, 0)]
    [InlineData("WidthMm", 1200, -600, 400, 0)]
    [InlineData("WidthMm", 1200, double.NaN, 400, 0)]
    [InlineData("BrimMm", 1200, 600, 0, 0)]
    [InlineData("BrimMm", 1200, 600, 20_001, 0)]
    [InlineData("DisplacedLitres", 1200, 600, 400, -1)]
    [InlineData("DisplacedLitres", 1200, 600, 400, 288)]
    [InlineData("DisplacedLitres", 1200, 600, 400, double.NaN)]
    public void Sump_OutOfRange_IsRefusedByName(string argument, double length, double width, double brim, double displaced) =>
        Assert.Throws<ArgumentOutOfRangeException>(argument, () => new RectangularSump(length, width, brim, displaced));

    [Fact]
    public void Estimate_NegativeResolution_IsRefusedByName() =>
        Assert.Throws<ArgumentOutOfRangeException>("resolution", () => LevelVolume.Estimate(Box, 100, -1));

    [Fact]
    public void Equals_SameDimensions_IsTrue()
    {
        Assert.Equal(new RectangularSump(1200, 600, 400, 28), new RectangularSump(1200, 600, 400, 28));
        Assert.NotEqual(new RectangularSump(1200, 600, 400, 28), new RectangularSump(1200, 600, 400, 27));
    }

    private static RectangularSump Some(ushort length, ushort width, ushort height, byte displaced)
    {
        var (l, w, h) = (100 + (length / 10.0), 100 + (width / 10.0), 50 + (height / 50.0));
        return new(l, w, h, l * w * h / 1e6 * displaced / 256);
    }

    private static double Printed(string dimensions) =>
        VectorFile.Number(VectorFile.Rows("tank_volumes").Single(row => row[1] == dimensions)[2]);
}
