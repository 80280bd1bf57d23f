using ShopFluids.Calculations.Electrodes;
using ShopFluids.Calculations.Tests.Vectors;
using Xunit;

namespace ShopFluids.Calculations.Tests.Electrodes;

/// <summary>nernst_slope.csv (computed; three values read), nist_buffers.csv (from memory; JIS read), nominal_buffers_read.csv (read).</summary>
public sealed class ElectrodeTests
{
    private static readonly ElectrodeLimits Limits = new();

    public static TheoryData<string[]> Slopes => VectorFile.Theory("nernst_slope");

    public static TheoryData<string[]> Primary => VectorFile.Theory("nist_buffers");

    public static TheoryData<string[]> Technical => VectorFile.Theory("nominal_buffers_read");

    [Theory]
    [MemberData(nameof(Slopes))]
    public void SlopeMillivoltsPerPh_ComputedTable_Agrees(string[] row) =>
        Assert.Equal(VectorFile.Number(row[1]), Nernst.SlopeMillivoltsPerPh(VectorFile.Number(row[0])), tolerance: 6e-5);

    [Theory]
    [MemberData(nameof(Primary))]
    public void PhAt_PrimaryStandards_AgreeWithinTheScales(string[] row)
    {
        var buffer = row[0] switch
        {
            "phthalate" => PhBuffer.Phthalate,
            "phosphate_equimolar" => PhBuffer.Phosphate,
            "borax" => PhBuffer.Borax,
            "carbonate" => PhBuffer.Carbonate,
            _ => throw new InvalidOperationException($"No check for {row[0]}."),
        };
        var ph = PhBuffers.PhAt(buffer, VectorFile.Number(row[1]));
        Assert.Equal(VectorFile.Number(row[2]), ph, 9);
        Assert.All(row[3..].Where(text => text.Length > 0), text => Assert.Equal(VectorFile.Number(text), ph, tolerance: 0.0151));
    }

    [Theory]
    [MemberData(nameof(Technical))]
    public void PhAt_TechnicalBuffers_AgreeWithTheManual(string[] row)
    {
        var celsius = VectorFile.Number(row[0]);
        Assert.Equal(VectorFile.Number(row[1]), PhBuffers.PhAt(PhBuffer.Nominal4, celsius), 9);
        Assert.Equal(VectorFile.Number(row[2]), PhBuffers.PhAt(PhBuffer.Nominal7, celsius), 9);
        Assert.Equal(VectorFile.Number(row[3]), PhBuffers.PhAt(PhBuffer.Nominal10, celsius), 9);
    }

    [Fact]
    public void PhAt_BetweenEntries_IsOnTheLine()
    {
        Assert.Equal(7.03, PhBuffers.PhAt(PhBuffer.Nominal7, 17.5), 9);
        Assert.Equal(10.266, PhBuffers.PhAt(PhBuffer.Nominal10, 4) + 0.002, 2);
        Assert.Equal(9.0395, PhBuffers.PhAt(PhBuffer.Borax, 45), 9);
    }

    // The worked example of docs/calculations/ph-electrode.md; both electrodes are a maker's (read).
    [Fact]
    public void TwoPoint_MakersElectrodes_PassAndFail()
    {
        var good = ElectrodeCheck.TwoPoint(new(7.01, -15), new(4.01, 160), 25, Limits);
        Assert.Equal(98.60, good.SlopePercent, 2);
        Assert.Equal(58.333, good.SlopeMillivoltsPerPh, 3);
        Assert.Equal(-14.417, good.OffsetMillivolts, 3);
        Assert.True(good.Passes && good.IsSlopeAccepted && good.IsOffsetAccepted);
        var bad = ElectrodeCheck.TwoPoint(new(7.01, 15), new(4.01, 160), 25, Limits);
        Assert.Equal(81.70, bad.SlopePercent, 2);
        Assert.False(bad.Passes || bad.IsSlopeAccepted);
        Assert.True(bad.IsOffsetAccepted);
        Assert.Equal(7.01, good.PhAt(-15), 9);
        Assert.Equal(4.01, good.PhAt(160), 9);
    }

    [Fact]
    public void TwoPoint_BuffersSwapped_IsTheSame()
    {
        var one = ElectrodeCheck.TwoPoint(new(7, 3), new(10, -170), 20, Limits);
        var other = ElectrodeCheck.TwoPoint(new(10, -170), new(7, 3), 20, Limits);
        Assert.Equal(one.SlopePercent, other.SlopePercent, 9);
        Assert.Equal(one.OffsetMillivolts, other.OffsetMillivolts, 9);
    }

    [Theory]
    [InlineData(30, 100, true, true)]
    [InlineData(-30, 100, true, true)]
    [InlineData(30.01, 100, true, false)]
    [InlineData(-30.01, 100, true, false)]
    [InlineData(0, 85, true, true)]
    [InlineData(0, 105, true, true)]
    [InlineData(0, 84.99, false, true)]
    [InlineData(0, 105.01, false, true)]
    public void TwoPoint_OnTheLimits_Passes(double offset, double slopePercent, bool slopeAccepted, bool offsetAccepted)
    {
        var perPh = Nernst.SlopeMillivoltsPerPh(25) * slopePercent / 100;
        var result = ElectrodeCheck.TwoPoint(new(7, offset), new(4, offset + (3 * perPh)), 25, Limits);
        Assert.Equal((slopeAccepted, offsetAccepted, slopeAccepted && offsetAccepted), (result.IsSlopeAccepted, result.IsOffsetAccepted, result.Passes));
    }

    [Fact]
    public void Limits_Defaults_AreTheMakers() =>
        Assert.Equal((85, 105, 30), (Limits.LowestSlopePercent, Limits.HighestSlopePercent, Limits.LargestOffsetMillivolts));

    [Fact]
    public void PhAt_DeadElectrode_IsRefused()
    {
        var dead = ElectrodeCheck.TwoPoint(new(7, 10), new(4, 10), 25, Limits);
        Assert.False(dead.Passes);
        Assert.Contains("without a slope", Assert.Throws<InvalidOperationException>(() => dead.PhAt(10)).Message, StringComparison.Ordinal);
        Assert.Equal(7, ElectrodeCheck.TwoPoint(new(7, 0), new(4, 0.0031), 25, Limits).PhAt(0), 9);
    }

    [Fact]
    public void Inputs_OutOfRange_AreRefusedByName()
    {
        BufferReading seven = new(7, 0);
        Assert.Throws<ArgumentOutOfRangeException>("celsius", () => Nernst.SlopeMillivoltsPerPh(-0.1));
        Assert.Throws<ArgumentOutOfRangeException>("celsius", () => Nernst.SlopeMillivoltsPerPh(100.1));
        Assert.Throws<ArgumentOutOfRangeException>("celsius", () => PhBuffers.PhAt(PhBuffer.Borax, 50.1));
        Assert.Throws<ArgumentOutOfRangeException>("celsius", () => PhBuffers.PhAt(PhBuffer.Borax, -0.1));
        Assert.Throws<ArgumentOutOfRangeException>("buffer", () => PhBuffers.PhAt((PhBuffer)7, 25));
        Assert.Throws<ArgumentOutOfRangeException>("first", () => ElectrodeCheck.TwoPoint(new(14.1, 0), seven, 25, Limits));
        Assert.Throws<ArgumentOutOfRangeException>("second", () => ElectrodeCheck.TwoPoint(seven, new(4, 1001), 25, Limits));
        Assert.Throws<ArgumentOutOfRangeException>("second", () => ElectrodeCheck.TwoPoint(seven, new(6.01, 50), 25, Limits));
        Assert.Equal(50, ElectrodeCheck.TwoPoint(seven, new(6, 50), 25, Limits).SlopeMillivoltsPerPh, 9);
        Assert.Throws<ArgumentOutOfRangeException>("LowestSlopePercent", () => new ElectrodeLimits(-1));
        Assert.Throws<ArgumentOutOfRangeException>("HighestSlopePercent", () => new ElectrodeLimits(95, 94));
        Assert.Throws<ArgumentOutOfRangeException>("LargestOffsetMillivolts", () => new ElectrodeLimits(95, 105, 1001));
        Assert.Throws<ArgumentNullException>("limits", () => ElectrodeCheck.TwoPoint(seven, new(4, 0), 25, null!));
        var good = ElectrodeCheck.TwoPoint(seven, new(4, 177), 25, Limits);
        Assert.Throws<ArgumentOutOfRangeException>("millivolts", () => good.PhAt(10_001));
    }
}
