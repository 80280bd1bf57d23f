using ShopFluids.Calculations.Tests.Vectors;
using ShopFluids.Calculations.Volumes;
using Xunit;

namespace ShopFluids.Calculations.Tests.Volumes;

/// <summary>Check values: tank_volumes.csv and horizontal_cylinder_fraction.csv, computed from closed forms.</summary>
public sealed class ShapesTests
{
    // The L-shaped sump of docs/calculations/volumes.md: a deep box and a shelf that begins at 150 mm.
    private static readonly BoxesSump Stepped = new([new(600, 400, 150), new(1000, 500, 0)], 400);

    public static TheoryData<string[]> Fractions => VectorFile.Theory("horizontal_cylinder_fraction");

    [Theory]
    [MemberData(nameof(Fractions))]
    public void FractionAt_ComputedTable_Agrees(string[] row) =>
        Assert.Equal(VectorFile.Number(row[1]), HorizontalCylinderSump.FractionAt(VectorFile.Number(row[0])), tolerance: 6e-7);

    [Fact]
    public void HorizontalCylinder_ClosedForms_Agree()
    {
        var tank = new HorizontalCylinderSump(1000, 2000);
        var rows = VectorFile.Rows("tank_volumes").Where(row => row[0].StartsWith("horizontal cylinder", StringComparison.Ordinal)).ToList();
        Assert.Equal(9, rows.Count);
        Assert.All(rows, row =>
        {
            var level = 1000 * VectorFile.Number(row[1].Replace("h/D=", "", StringComparison.Ordinal));
            Assert.Equal(VectorFile.Number(row[2]), tank.VolumeLitresAt(level), tolerance: 1e-6);
            Assert.Equal(level, tank.LevelMmAt(VectorFile.Number(row[2])), tolerance: 1e-6);
        });
        Assert.Equal((1000, 0), (tank.BrimMm, tank.BottomLitres));
        Assert.Equal(2, tank.SurfaceLitresPerMmAt(500), 12);
        Assert.Equal(1.6, tank.SurfaceLitresPerMmAt(200), 12);
        Assert.Equal(0, tank.SurfaceLitresPerMmAt(0));
        Assert.Equal(0, tank.SurfaceLitresPerMmAt(1000));
    }

    // Leading term of the segment near the bottom: A = (4/3) √D h^(3/2) (1 − 0.3 h/D), with which the textbook form loses its digits.
    [Theory]
    [InlineData(1e-9)]
    [InlineData(1e-6)]
    [InlineData(1e-4)]
    [InlineData(0.0024)]
    [InlineData(0.0026)]
    public void FractionAt_NearTheBottom_KeepsItsDigits(double share)
    {
        var expected = 16 / (3 * Math.PI) * Math.Pow(share, 1.5) * (1 - (0.3 * share) - (3 * share * share / 56) - (share * share * share / 48));
        Assert.Equal(1, HorizontalCylinderSump.FractionAt(share) / expected, 10);
    }

    [Fact]
    public void FractionAt_OutsideTheCylinder_IsRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("levelOverDiameter", () => HorizontalCylinderSump.FractionAt(1.0001));
        Assert.Throws<ArgumentOutOfRangeException>("levelOverDiameter", () => HorizontalCylinderSump.FractionAt(double.NaN));
    }

    [Fact]
    public void VerticalCylinder_ClosedForms_Agree()
    {
        var drum = new VerticalCylinderSump(560, 880);
        Assert.Equal(Printed("D=560 mm, depth 850 mm (drum)"), drum.VolumeLitresAt(850), tolerance: 1e-6);
        Assert.Equal(850, drum.LevelMmAt(drum.VolumeLitresAt(850)), 9);
        Assert.Equal(Math.PI * 0.28 * 0.28, drum.SurfaceLitresPerMmAt(3), 12);
        Assert.Equal((880, 0, 560), (drum.BrimMm, drum.BottomLitres, drum.DiameterMm));
        var feet = new VerticalCylinderSump(10 * 304.8, 10 * 304.8);
        Assert.Equal(Printed("r=5 ft, h=10 ft"), feet.BrimLitres, tolerance: 1e-3);
        Assert.Equal(5875, VolumeUnits.UsGallonsFromLitres(feet.BrimLitres), tolerance: 0.5);
    }

    // The worked example of docs/calculations/volumes.md; the square-root formula would give 75.6 L for the hopper.
    [Fact]
    public void Hopper_PrismoidAndBoxAbove_MatchesTheWorkedExample()
    {
        var hopper = new HopperSump(800, 600, 400, 200, 300, 500);
        Assert.Equal(Printed("top 800x600, bottom 400x200, height 300 mm"), hopper.VolumeLitresAt(300), tolerance: 1e-9);
        Assert.Equal(76 + 48, hopper.VolumeLitresAt(400), 9);
        Assert.Equal(172, hopper.BrimLitres, 9);
        Assert.Equal(23, hopper.VolumeLitresAt(150), 9);
        Assert.Equal(150, hopper.LevelMmAt(23), 9);
        Assert.Equal(400, hopper.LevelMmAt(124), 9);
        Assert.Equal(300, hopper.LevelMmAt(76), 9);
        Assert.Equal(0.08, hopper.SurfaceLitresPerMmAt(0), 12);
        Assert.Equal(0.24, hopper.SurfaceLitresPerMmAt(150), 12);
        Assert.Equal(0.48, hopper.SurfaceLitresPerMmAt(400), 12);
        Assert.Equal(0, hopper.BottomLitres);
    }

    [Fact]
    public void Hopper_TrapezoidPrism_Agrees() =>
        Assert.Equal(Printed("top 800, bottom 500, depth 300, length 1000 mm"), new HopperSump(800, 1000, 500, 1000, 300, 300).BrimLitres, tolerance: 1e-9);

    [Fact]
    public void WithSlopedBottom_WedgeThenBox_IsLengthWidthTimesLevelLessHalfTheRise()
    {
        var sump = HopperSump.WithSlopedBottom(1000, 500, 100, 400);
        Assert.Equal(6.25, sump.VolumeLitresAt(50), 9);
        Assert.Equal(25, sump.VolumeLitresAt(100), 9);
        Assert.Equal(75, sump.VolumeLitresAt(200), 9);
        Assert.Equal(175, sump.BrimLitres, 9);
        Assert.Equal(50, sump.LevelMmAt(6.25), 9);
        Assert.Equal(0, sump.SurfaceLitresPerMmAt(0));
        Assert.Equal(0, sump.LevelMmAt(0), 9);
    }

    [Fact]
    public void Boxes_LShaped_MatchesTheWorkedExample()
    {
        Assert.Equal(50, Stepped.VolumeLitresAt(100), 9);
        Assert.Equal(75, Stepped.VolumeLitresAt(150), 9);
        Assert.Equal(112, Stepped.VolumeLitresAt(200), 9);
        Assert.Equal(260, Stepped.BrimLitres, 9);
        Assert.Equal(100, Stepped.LevelMmAt(50), 9);
        Assert.Equal(150, Stepped.LevelMmAt(75), 9);
        Assert.Equal(200, Stepped.LevelMmAt(112), 9);
        Assert.Equal(400, Stepped.LevelMmAt(260), 9);
        Assert.Equal(0, Stepped.LevelMmAt(0));
        Assert.Equal(0.5, Stepped.SurfaceLitresPerMmAt(149), 12);
        Assert.Equal(0.74, Stepped.SurfaceLitresPerMmAt(150), 12);
        Assert.Equal((400, 0, 0), (Stepped.BrimMm, Stepped.BottomLitres, Stepped.Boxes[0].BottomMm));
    }

    [Fact]
    public void Boxes_Equality_IsByBoxesAndBrim()
    {
        var same = new BoxesSump([new(1000, 500, 0), new(600, 400, 150)], 400);
        Assert.Equal(Stepped, same);
        Assert.Equal(Stepped.GetHashCode(), same.GetHashCode());
        Assert.NotEqual(Stepped, new BoxesSump([new(1000, 500, 0), new(600, 400, 150)], 401));
        Assert.NotEqual(Stepped, new BoxesSump([new(1000, 500, 0), new(600, 401, 150)], 400));
        Assert.NotEqual(Stepped.GetHashCode(), new BoxesSump([new(1000, 500, 0)], 400).GetHashCode());
        Assert.NotEqual(Stepped.GetHashCode(), new BoxesSump([new(1000, 500, 0), new(600, 400, 150)], 401).GetHashCode());
        Assert.False(Stepped.Equals((BoxesSump?)null));
    }

    [Fact]
    public void Displaced_OverABox_IsWhatTheBoxDoesItself()
    {
        var wrapped = new DisplacedSump(new RectangularSump(1200, 600, 400), 28);
        var direct = new RectangularSump(1200, 600, 400, 28);
        Assert.Equal(direct.VolumeLitresAt(250), wrapped.VolumeLitresAt(250), 9);
        Assert.Equal(250, wrapped.LevelMmAt(162.5), 9);
        Assert.Equal(0.65, wrapped.SurfaceLitresPerMmAt(100), 12);
        Assert.Equal((400, 0), (wrapped.BrimMm, wrapped.BottomLitres));
        Assert.Equal(260, wrapped.BrimLitres, 9);
        Assert.Equal(400, wrapped.LevelMmAt(wrapped.BrimLitres), 9);
    }

    [Fact]
    public void Displaced_OverAStrappedSump_TakesTheBottomInProportion()
    {
        var sump = new DisplacedSump(new StrappingTableSump([new(0, 10), new(100, 100)]), 20);
        Assert.Equal(8, sump.BottomLitres, 12);
        Assert.Equal(44, sump.VolumeLitresAt(50), 12);
        Assert.Equal(0, sump.LevelMmAt(8), 9);
    }

    [Fact]
    public void Shapes_OutOfRange_AreRefusedByName()
    {
        var box = new SumpBox(100, 100, 0);
        Assert.Throws<ArgumentOutOfRangeException>("Boxes", () => new BoxesSump([], 400));
        Assert.Throws<ArgumentOutOfRangeException>("Boxes", () => new BoxesSump([.. Enumerable.Repeat(box, 51)], 400));
        Assert.Equal(200, new BoxesSump([.. Enumerable.Repeat(box, 50)], 400).BrimLitres, 9);
        Assert.Throws<ArgumentOutOfRangeException>("Boxes", () => new BoxesSump([box with { LengthMm = 0 }], 400));
        Assert.Throws<ArgumentOutOfRangeException>("Boxes", () => new BoxesSump([box with { WidthMm = 100_001 }], 400));
        Assert.Throws<ArgumentOutOfRangeException>("Boxes", () => new BoxesSump([box, box with { BottomMm = 400 }], 400));
        Assert.Equal(10.0, Assert.Throws<ArgumentOutOfRangeException>("Boxes", () => new BoxesSump([box with { BottomMm = 20 }, box with { BottomMm = 10 }], 400)).ActualValue);
        Assert.Throws<ArgumentOutOfRangeException>("BrimMm", () => new BoxesSump([box], 20_001));
        Assert.Throws<ArgumentOutOfRangeException>("TopLengthMm", () => new HopperSump(0, 600, 0, 200, 300, 500));
        Assert.Throws<ArgumentOutOfRangeException>("TopWidthMm", () => new HopperSump(800, 100_001, 400, 200, 300, 500));
        Assert.Throws<ArgumentOutOfRangeException>("BottomLengthMm", () => new HopperSump(800, 600, 801, 200, 300, 500));
        Assert.Throws<ArgumentOutOfRangeException>("BottomWidthMm", () => new HopperSump(800, 600, 400, -1, 300, 500));
        Assert.Throws<ArgumentOutOfRangeException>("ShoulderMm", () => new HopperSump(800, 600, 400, 200, 501, 500));
        Assert.Throws<ArgumentOutOfRangeException>("ShoulderMm", () => new HopperSump(800, 600, 400, 200, 0.9, 500));
        Assert.Throws<ArgumentOutOfRangeException>("BrimMm", () => new HopperSump(800, 600, 400, 200, 300, 20_001));
        Assert.Throws<ArgumentOutOfRangeException>("DiameterMm", () => new VerticalCylinderSump(20_001, 500));
        Assert.Throws<ArgumentOutOfRangeException>("BrimMm", () => new VerticalCylinderSump(500, 0));
        Assert.Throws<ArgumentOutOfRangeException>("DiameterMm", () => new HorizontalCylinderSump(0, 500));
        Assert.Throws<ArgumentOutOfRangeException>("LengthMm", () => new HorizontalCylinderSump(500, 100_001));
        Assert.Equal(Stepped.BrimLitres, new DisplacedSump(Stepped, 0).BrimLitres);
        Assert.Throws<ArgumentOutOfRangeException>("DisplacedLitres", () => new DisplacedSump(Stepped, 260));
        Assert.Throws<ArgumentOutOfRangeException>("DisplacedLitres", () => new DisplacedSump(Stepped, -0.1));
        Assert.Throws<ArgumentNullException>("Empty", () => new DisplacedSump(null!, 1));
    }

    private static double Printed(string dimensions) =>
        VectorFile.Number(VectorFile.Rows("tank_volumes").First(row => row[1] == dimensions)[2]);
}
