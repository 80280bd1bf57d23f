using FsCheck.Xunit;
using ShopFluids.Calculations.Bacteria;
using ShopFluids.Calculations.Tests.Vectors;
using Xunit;

namespace ShopFluids.Calculations.Tests.Bacteria;

/// <summary>bacteria_bands.csv and bacteria_band_examples.csv: HSE's current page and that of 2006 to 2012 (read).</summary>
public sealed class BacteriaTests
{
    public static TheoryData<string[]> Examples => VectorFile.Theory("bacteria_band_examples");

    public static TheoryData<string[]> BandRows => VectorFile.Theory("bacteria_bands");

    [Theory]
    [MemberData(nameof(Examples))]
    public void Of_BoundaryExamples_Agrees(string[] row)
    {
        var count = VectorFile.Number(row[0]);
        Assert.Equal(row[1], BacteriaBands.HseCurrent.Of(count).ToString(), ignoreCase: true);
        Assert.Equal(row[2], BacteriaBands.Hse2006.Of(count).ToString(), ignoreCase: true);
    }

    [Theory]
    [MemberData(nameof(BandRows))]
    public void Of_LowerBoundOfEachBand_BelongsToIt(string[] row)
    {
        var bands = row[0] == "HSE-current" ? BacteriaBands.HseCurrent : BacteriaBands.Hse2006;
        Assert.Equal(row[3], bands.Of(VectorFile.Number(row[1])).ToString(), ignoreCase: true);
        if (row[2].Length > 0)
        {
            Assert.NotEqual(bands.Of(VectorFile.Number(row[1])), bands.Of(VectorFile.Number(row[2])));
        }
    }

    // The worked example of docs/calculations/bacteria.md.
    [Fact]
    public void Between_TwoPowersInAWeek_MatchesTheWorkedExample()
    {
        var growth = BacteriaGrowth.Between(1e4, 1e6, 168, 0.29);
        Assert.Equal(2 / 168.0, growth.Log10PerHour.Value, 12);
        Assert.Equal(2 * Math.Sqrt(2) * 0.29 / 168, growth.Log10PerHour.ExpandedUncertainty, 12);
        Assert.Equal(25.29, growth.DoublingHours!.Value, 2);
        Assert.Equal(17.93, growth.ShortestDoublingHours!.Value, 2);
        Assert.Equal(42.87, growth.LongestDoublingHours!.Value, 2);
        Assert.Equal(168, BacteriaGrowth.HoursToReach(1e4, 1e6, growth.DoublingHours.Value), 9);
    }

    [Theory]
    [InlineData(1e4, 1e5, 0.36)]
    [InlineData(1e5, 1e4, 0.01)]
    [InlineData(1e5, 1e5, 0.001)]
    public void Between_NoRiseBeyondUncertainty_GivesNoDoublingTime(double first, double second, double u)
    {
        var growth = BacteriaGrowth.Between(first, second, 24, u);
        Assert.Null(growth.DoublingHours);
        Assert.Null(growth.ShortestDoublingHours);
        Assert.Null(growth.LongestDoublingHours);
        Assert.Equal(Math.Log10(second / first) / 24, growth.Log10PerHour.Value, 12);
    }

    [Fact]
    public void Between_JustBeyondUncertainty_GivesADoublingTime() =>
        Assert.Equal(24 * Math.Log10(2), BacteriaGrowth.Between(1e4, 1e5, 24, 0.35).DoublingHours!.Value, 9);

    [Fact]
    public void HoursToReach_OneDoubling_IsTheDoublingTime()
    {
        Assert.Equal(12, BacteriaGrowth.HoursToReach(1000, 2000, 12), 9);
        Assert.Equal(0, BacteriaGrowth.HoursToReach(2000, 2000, 12));
        Assert.Equal(0, BacteriaGrowth.HoursToReach(3000, 2000, 12));
    }

    [Property(MaxTest = 100_000, Replay = "20260101,20260103")]
    public void Log10AndCfu_AreInverse(ushort value)
    {
        var log = 12.0 * value / ushort.MaxValue;
        Assert.Equal(log, BacteriaScale.Log10FromCfu(Math.Min(BacteriaScale.CfuFromLog10(log), 1e12)), 9);
    }

    [Fact]
    public void Inputs_OutOfRange_AreRefusedByName()
    {
        Assert.Equal(0, BacteriaScale.Log10FromCfu(1));
        Assert.Equal(12, BacteriaScale.Log10FromCfu(1e12), 12);
        Assert.Throws<ArgumentOutOfRangeException>("cfuPerMillilitre", () => BacteriaScale.Log10FromCfu(0.9));
        Assert.Throws<ArgumentOutOfRangeException>("cfuPerMillilitre", () => BacteriaScale.Log10FromCfu(1.1e12));
        Assert.Throws<ArgumentOutOfRangeException>("log10", () => BacteriaScale.CfuFromLog10(-0.1));
        Assert.Throws<ArgumentOutOfRangeException>("log10", () => BacteriaScale.CfuFromLog10(12.1));
        Assert.Throws<ArgumentOutOfRangeException>("cfuPerMillilitre", () => BacteriaBands.HseCurrent.Of(-1));
        Assert.Throws<ArgumentOutOfRangeException>("ReasonableFromCfu", () => new BacteriaBands(0, 1e6));
        Assert.Throws<ArgumentOutOfRangeException>("PoorFromCfu", () => new BacteriaBands(1e4, 9999));
        Assert.Throws<ArgumentOutOfRangeException>("firstCfu", () => BacteriaGrowth.Between(0, 10, 1, 0.3));
        Assert.Throws<ArgumentOutOfRangeException>("secondCfu", () => BacteriaGrowth.Between(10, 2e12, 1, 0.3));
        Assert.Throws<ArgumentOutOfRangeException>("hours", () => BacteriaGrowth.Between(10, 10, 0.09, 0.3));
        Assert.Throws<ArgumentOutOfRangeException>("hours", () => BacteriaGrowth.Between(10, 10, 100_001, 0.3));
        Assert.Throws<ArgumentOutOfRangeException>("standardUncertaintyLog10", () => BacteriaGrowth.Between(10, 10, 1, 0));
        Assert.Throws<ArgumentOutOfRangeException>("standardUncertaintyLog10", () => BacteriaGrowth.Between(10, 10, 1, 3.1));
        Assert.Throws<ArgumentOutOfRangeException>("cfuPerMillilitre", () => BacteriaGrowth.HoursToReach(0, 10, 1));
        Assert.Throws<ArgumentOutOfRangeException>("limitCfu", () => BacteriaGrowth.HoursToReach(1, 0, 1));
        Assert.Throws<ArgumentOutOfRangeException>("doublingHours", () => BacteriaGrowth.HoursToReach(1, 10, 0));
    }
}
