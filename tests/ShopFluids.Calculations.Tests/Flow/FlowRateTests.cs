using FsCheck.Xunit;
using ShopFluids.Calculations.Flow;
using ShopFluids.Calculations.Tests.Vectors;
using UnitsNet;
using Xunit;

namespace ShopFluids.Calculations.Tests.Flow;

/// <summary>flow_units.csv: computed from the exact gallons. UnitsNet is the oracle for the rest.</summary>
public sealed class FlowRateTests
{
    public static TheoryData<string[]> Conversions => VectorFile.Theory("flow_units");

    [Theory]
    [MemberData(nameof(Conversions))]
    public void Conversions_ComputedTable_Agree(string[] row)
    {
        var value = VectorFile.Number(row[0]);
        var flow = row[1] switch
        {
            "US gpm" => FlowRate.FromUsGallonsPerMinute(value),
            "US gph" => FlowRate.FromUsGallonsPerHour(value),
            "L/min" => FlowRate.FromLitresPerMinute(value),
            "imp gpm" => FlowRate.FromImperialGallonsPerMinute(value),
            "L/s" => FlowRate.FromLitresPerSecond(value),
            "m3/h" => FlowRate.FromCubicMetresPerHour(value),
            _ => throw new InvalidOperationException($"No check for {row[1]}."),
        };
        var result = row[2] switch
        {
            "L/min" => flow.LitresPerMinute,
            "US gph" => flow.UsGallonsPerHour,
            "m3/h" => flow.CubicMetresPerHour,
            "US gpm" => flow.UsGallonsPerMinute,
            _ => throw new InvalidOperationException($"No check for {row[2]}."),
        };
        Assert.Equal(VectorFile.Number(row[3]), result, tolerance: 1e-7 * result);
    }

    [Property(MaxTest = 100_000, Replay = "20260101,20260103")]
    public void EachUnit_ThereAndBack_IsTheSame(ushort value)
    {
        var v = value / 16.0;
        Assert.Equal(v, FlowRate.FromLitresPerMinute(v).LitresPerMinute, tolerance: 1e-12 * v);
        Assert.Equal(v, FlowRate.FromLitresPerSecond(v).LitresPerSecond, tolerance: 1e-12 * v);
        Assert.Equal(v, FlowRate.FromCubicMetresPerHour(v).CubicMetresPerHour, tolerance: 1e-12 * v);
        Assert.Equal(v, FlowRate.FromUsGallonsPerMinute(v).UsGallonsPerMinute, tolerance: 1e-12 * v);
        Assert.Equal(v, FlowRate.FromUsGallonsPerHour(v).UsGallonsPerHour, tolerance: 1e-12 * v);
        Assert.Equal(v, FlowRate.FromImperialGallonsPerMinute(v).ImperialGallonsPerMinute, tolerance: 1e-12 * v);
        Assert.Equal(60 * v, FlowRate.FromLitresPerMinute(v).LitresPerHour, tolerance: 1e-12 * 60 * v);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(37.5)]
    public void Conversions_UnitsNetAsOracle_Agree(double value)
    {
        Assert.Equal(VolumeFlow.FromUsGallonsPerMinute(value).LitersPerMinute, FlowRate.FromUsGallonsPerMinute(value).LitresPerMinute, 9);

        // The oracle rounds the imperial gallon to six digits; the exact one is checked by the table above.
        Assert.Equal(VolumeFlow.FromUkGallonsPerMinute(value).LitersPerMinute, FlowRate.FromImperialGallonsPerMinute(value).LitresPerMinute, tolerance: 1e-4 * value);
        Assert.Equal(VolumeFlow.FromCubicMetersPerHour(value).LitersPerMinute, FlowRate.FromCubicMetresPerHour(value).LitresPerMinute, 9);
        Assert.Equal(VolumeFlow.FromLitersPerSecond(value).LitersPerMinute, FlowRate.FromLitresPerSecond(value).LitresPerMinute, 9);
    }

    [Fact]
    public void Factories_OutOfRange_AreRefusedByName()
    {
        Assert.Equal(1e7, FlowRate.FromLitresPerMinute(1e7).LitresPerMinute);
        Assert.Throws<ArgumentOutOfRangeException>("litresPerMinute", () => FlowRate.FromLitresPerMinute(1.0001e7));
        Assert.Throws<ArgumentOutOfRangeException>("litresPerMinute", () => FlowRate.FromLitresPerMinute(-1));
        Assert.Throws<ArgumentOutOfRangeException>("litresPerSecond", () => FlowRate.FromLitresPerSecond(1e7));
        Assert.Throws<ArgumentOutOfRangeException>("cubicMetresPerHour", () => FlowRate.FromCubicMetresPerHour(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>("usGallonsPerMinute", () => FlowRate.FromUsGallonsPerMinute(1e7));
        Assert.Throws<ArgumentOutOfRangeException>("usGallonsPerHour", () => FlowRate.FromUsGallonsPerHour(-1));
        Assert.Throws<ArgumentOutOfRangeException>("imperialGallonsPerMinute", () => FlowRate.FromImperialGallonsPerMinute(double.PositiveInfinity));
    }

    // Common practice, no source: a small machining centre's sump of 35 US gallons passes a pump of 10 US gal/min in 3.5 minutes.
    [Fact]
    public void Turnover_SmallMachiningCentre_MatchesTheWorkedExample()
    {
        var pump = FlowRate.FromUsGallonsPerMinute(10);
        Assert.Equal(600, pump.UsGallonsPerHour, 9);
        Assert.Equal(3.5, Turnover.ResidenceMinutes(132.48941244, pump), 9);
        Assert.Equal(60 / 3.5, Turnover.PerHour(pump, 132.48941244), 9);
        Assert.Equal(0, Turnover.PerHour(default, 100));
        Assert.Equal(0, Turnover.ResidenceMinutes(0, pump));
    }

    [Fact]
    public void Turnover_OutOfRange_IsRefusedByName()
    {
        var pump = FlowRate.FromLitresPerMinute(0.001);
        Assert.Equal(60, Turnover.PerHour(pump, 0.001), 9);
        Assert.Equal(1e9, Turnover.ResidenceMinutes(1e6, pump), 3);
        Assert.Throws<ArgumentOutOfRangeException>("litres", () => Turnover.PerHour(pump, 0.0009));
        Assert.Throws<ArgumentOutOfRangeException>("litres", () => Turnover.PerHour(pump, 1_000_001));
        Assert.Throws<ArgumentOutOfRangeException>("litres", () => Turnover.ResidenceMinutes(-1, pump));
        Assert.Throws<ArgumentOutOfRangeException>("flow", () => Turnover.ResidenceMinutes(1, FlowRate.FromLitresPerMinute(0.0009)));
    }

    /// <summary>trench_flush_read.csv: ORC guide of 1999, How to Size (read).</summary>
    public static TheoryData<string[]> Trenches => VectorFile.Theory("trench_flush_read");

    [Theory]
    [MemberData(nameof(Trenches))]
    public void TrenchFlush_OrcTable_Agrees(string[] row)
    {
        var material = row[0] switch
        {
            "aluminium" => TrenchMaterial.Aluminium,
            "cast iron" => TrenchMaterial.CastIron,
            "steel" => TrenchMaterial.Steel,
            _ => throw new InvalidOperationException($"No check for {row[0]}."),
        };
        var (low, high) = TrenchFlush.Flow(material, 3.048);
        Assert.Equal(10 * VectorFile.Number(row[1]), low.UsGallonsPerMinute, 9);
        Assert.Equal(10 * VectorFile.Number(row[2]), high.UsGallonsPerMinute, 9);
    }

    [Fact]
    public void TrenchFlush_OutOfRange_IsRefusedByName()
    {
        Assert.Equal(0, TrenchFlush.Flow(TrenchMaterial.Steel, 0).High.LitresPerMinute);
        Assert.Throws<ArgumentOutOfRangeException>("material", () => TrenchFlush.Flow((TrenchMaterial)3, 1));
        Assert.Throws<ArgumentOutOfRangeException>("lengthMetres", () => TrenchFlush.Flow(TrenchMaterial.Steel, 10_001));
        Assert.Throws<ArgumentOutOfRangeException>("lengthMetres", () => TrenchFlush.Flow(TrenchMaterial.Steel, -1));
    }
}
