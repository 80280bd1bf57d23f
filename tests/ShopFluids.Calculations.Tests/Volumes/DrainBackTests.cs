using ShopFluids.Calculations.Tests.Vectors;
using ShopFluids.Calculations.Volumes;
using Xunit;

namespace ShopFluids.Calculations.Tests.Volumes;

/// <summary>pipe_drainback.csv: computed from π d² / 4.</summary>
public sealed class DrainBackTests
{
    private static readonly RectangularSump Box = new(1200, 600, 400, 28);

    public static TheoryData<string[]> Pipes => VectorFile.Theory("pipe_drainback");

    [Theory]
    [MemberData(nameof(Pipes))]
    public void PipeLitresPerMetre_ComputedTable_Agrees(string[] row)
    {
        var litres = DrainBack.PipeLitresPerMetre(LengthUnits.MillimetresFromInches(VectorFile.Number(row[0])));
        Assert.Equal(VectorFile.Number(row[3]), litres, tolerance: 1e-6);
        Assert.Equal(litres, DrainBack.PipeLitresPerMetre(VectorFile.Number(row[2])), 9);
        Assert.Equal(VectorFile.Number(row[1]), VolumeUnits.UsGallonsFromLitres(DrainBack.PipeLitres(VectorFile.Number(row[2]), 0.3048)), tolerance: 1e-6);
    }

    // The worked example of docs/calculations/volumes.md.
    [Fact]
    public void Levels_TwelveMetresOfPipe_MatchTheWorkedExample()
    {
        var flight = DrainBack.PipeLitres(25.4, 12) + 20;
        Assert.Equal(26.08, flight, 2);
        Assert.Equal(290.12, DrainBack.StoppedLevelMm(Box, 250, flight), 2);
        Assert.Equal(250, DrainBack.RunningLevelMm(Box, DrainBack.StoppedLevelMm(Box, 250, flight), flight), 9);
        Assert.Equal(359.88, DrainBack.HighestRunningLevelMm(Box, flight), 2);
        var measured = DrainBack.InFlight(Box, 250, 290, 5);
        Assert.Equal(26, measured.Value, 9);
        Assert.Equal(2 * 0.65 * 5 / Math.Sqrt(6), measured.ExpandedUncertainty, 9);
    }

    [Fact]
    public void Levels_AtTheEdges_AreAccepted()
    {
        Assert.Equal(400, DrainBack.StoppedLevelMm(Box, 0, 260), 9);
        Assert.Equal(0, DrainBack.RunningLevelMm(Box, 400, Box.BrimLitres), 9);
        Assert.Equal(0, DrainBack.InFlight(Box, 100, 100, 0).Value, 12);
        Assert.Equal(0, DrainBack.PipeLitres(0, 100_000));
        Assert.True(DrainBack.PipeLitres(10_000, 1) > 78_000);
    }

    [Fact]
    public void Inputs_OutOfRange_AreRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("inFlightLitres", () => DrainBack.StoppedLevelMm(Box, 300, 65.1));
        Assert.Throws<ArgumentOutOfRangeException>("inFlightLitres", () => DrainBack.StoppedLevelMm(Box, 300, -1));
        Assert.Throws<ArgumentOutOfRangeException>("runningLevelMm", () => DrainBack.StoppedLevelMm(Box, 401, 0));
        Assert.Throws<ArgumentOutOfRangeException>("inFlightLitres", () => DrainBack.RunningLevelMm(Box, 100, 65.1));
        Assert.Throws<ArgumentOutOfRangeException>("stoppedLevelMm", () => DrainBack.RunningLevelMm(Box, -1, 0));
        Assert.Throws<ArgumentOutOfRangeException>("inFlightLitres", () => DrainBack.HighestRunningLevelMm(Box, 261));
        Assert.Throws<ArgumentOutOfRangeException>("runningLevelMm", () => DrainBack.InFlight(Box, 300, 299, 1));
        Assert.Throws<ArgumentOutOfRangeException>("stoppedLevelMm", () => DrainBack.InFlight(Box, 300, 401, 1));
        Assert.Throws<ArgumentOutOfRangeException>("insideDiameterMm", () => DrainBack.PipeLitresPerMetre(10_001));
        Assert.Throws<ArgumentOutOfRangeException>("lengthMetres", () => DrainBack.PipeLitres(10, -1));
        Assert.Throws<ArgumentNullException>("geometry", () => DrainBack.StoppedLevelMm(null!, 1, 1));
        Assert.Throws<ArgumentNullException>("geometry", () => DrainBack.RunningLevelMm(null!, 1, 1));
        Assert.Throws<ArgumentNullException>("geometry", () => DrainBack.HighestRunningLevelMm(null!, 1));
        Assert.Throws<ArgumentNullException>("geometry", () => DrainBack.InFlight(null!, 1, 1, 1));
    }
}
