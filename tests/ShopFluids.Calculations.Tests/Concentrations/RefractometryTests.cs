using FsCheck.Xunit;
using MathNet.Numerics;
using ShopFluids.Calculations.Concentrations;
using ShopFluids.Calculations.Tests.Vectors;
using Xunit;

namespace ShopFluids.Calculations.Tests.Concentrations;

[Properties(MaxTest = 500, Replay = "20260101,20260103")]
public sealed class RefractometryTests
{
    /// <summary>refractometer_examples.csv: a trade article (2010), an equipment FAQ, and computed rows.</summary>
    public static TheoryData<string[]> Examples => VectorFile.Theory("refractometer_examples");

    /// <summary>icumsa_temp_correction.csv: ICUMSA / AOAC 932.14C, from memory.</summary>
    public static TheoryData<string[]> Icumsa => VectorFile.Theory("icumsa_temp_correction");

    /// <summary>oiv_temp_correction_read.csv: OIV-MA-AS2-02 Table I, read; the columns that both tables have.</summary>
    public static TheoryData<string[]> Oiv => [.. VectorFile.Rows("oiv_temp_correction_read").Where(row => VectorFile.Number(row[1]) <= 15)];

    [Theory]
    [MemberData(nameof(Examples))]
    public void Percent_PublishedExamples_Agree(string[] row) =>
        Assert.Equal(VectorFile.Number(row[3]), Refractometry.Percent(VectorFile.Number(row[0]), VectorFile.Number(row[1]), VectorFile.Number(row[2])), 9);

    [Theory]
    [InlineData(0, 0, 1)]
    [InlineData(8, 0.4, 1.5)]
    [InlineData(100, 5, 20)]
    [InlineData(3.3, -1, 0.7)]
    public void ReadingAt_EveryConcentration_IsTheWayBackOfPercent(double percent, double waterBrix, double factor) =>
        Assert.Equal(percent, Refractometry.Percent(Refractometry.ReadingAt(percent, waterBrix, factor), waterBrix, factor), 9);

    [Theory]
    [InlineData(-0.1, 0, 1)]
    [InlineData(100.1, 0, 1)]
    [InlineData(5, -1.1, 1)]
    [InlineData(5, 5.1, 1)]
    [InlineData(5, 0, 0)]
    [InlineData(5, 0, 20.1)]
    [InlineData(double.NaN, 0, 1)]
    public void ReadingAt_OutsideTheRange_Throws(double percent, double waterBrix, double factor) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Refractometry.ReadingAt(percent, waterBrix, factor));

    [Theory]
    [MemberData(nameof(Icumsa))]
    public void CorrectTo20Celsius_IcumsaTable_AgreesAtEveryEntry(string[] row)
    {
        var celsius = VectorFile.Number(row[0]);
        for (var column = 1; column < row.Length; column++)
        {
            var brix = 5.0 * (column - 1);
            Assert.Equal(brix + VectorFile.Number(row[column]), Refractometry.CorrectTo20Celsius(brix, celsius), 9);
        }
    }

    // Two published tables of the same thing, rounded to 0.01 each: 0.015 is the most by which they differ where both have a value.
    [Theory]
    [MemberData(nameof(Oiv))]
    public void CorrectTo20Celsius_OivTableI_AgreesWithin0015(string[] row)
    {
        var brix = VectorFile.Number(row[1]);
        Assert.Equal(VectorFile.Number(row[2]), Refractometry.CorrectTo20Celsius(brix, VectorFile.Number(row[0])) - brix, tolerance: 0.015);
    }

    [Fact]
    public void CorrectTo20Celsius_Oiv20PercentColumn_IsOffByNoMoreThanStated()
    {
        var beyond = VectorFile.Rows("oiv_temp_correction_read").Where(row => row[1] == "20").ToList();
        Assert.Equal(4, beyond.Count);
        Assert.All(beyond, row => Assert.Equal(VectorFile.Number(row[2]), Refractometry.CorrectTo20Celsius(20, VectorFile.Number(row[0])) - 20, tolerance: 0.0401));
    }

    // ISO 1743 (read) is glucose syrup: what its index loses from 20 to 30 °C corresponds to another correction than sucrose's.
    [Fact]
    public void CorrectTo20Celsius_Iso1743Glucose_IsNotTheScaleInUse()
    {
        var rows = VectorFile.Rows("iso1743_read").Select(row => row.Select(VectorFile.Number).ToArray()).ToList();
        var scaleAt20 = Interpolate.Linear(rows.Select(row => row[1]), rows.Select(row => row[0]));
        var tenPercent = rows.Single(row => row[0] == 10);
        var readAt30 = scaleAt20.Interpolate(tenPercent[2]);
        var glucose = 10 - readAt30;
        var sucrose = Refractometry.CorrectTo20Celsius(readAt30, 30) - readAt30;

        // Same sign and size, because dn/dT is that of water in the main; but apart by twice the tolerance of the sucrose checks.
        Assert.InRange(glucose, 0.7, 0.8);
        Assert.True(Math.Abs(glucose - sucrose) > 0.025, $"Glucose {glucose} and sucrose {sucrose} cannot be told apart.");
    }

    [Fact]
    public void CorrectTo20Celsius_BetweenEntries_IsBilinear()
    {
        // 10 °C: −0.50 and −0.54, 11 °C: −0.46 and −0.49; the middle of the four is −0.4975.
        Assert.Equal(2.5 - 0.4975, Refractometry.CorrectTo20Celsius(2.5, 10.5), 12);
        Assert.Equal(15 + 0.78, Refractometry.CorrectTo20Celsius(15, 30), 12);
        Assert.Equal(30 + 0.78, Refractometry.CorrectTo20Celsius(30, 30), 12);
    }

    [Property]
    public void CorrectTo20Celsius_AtTwentyDegrees_ChangesNothing(byte tenths)
    {
        var brix = tenths * 30.0 / 255;
        Assert.Equal(brix, Refractometry.CorrectTo20Celsius(brix, 20), tolerance: 1e-12);
    }

    [Property]
    public void CorrectTo20Celsius_HigherReadingOrWarmer_IsHigher(byte brixStep, byte degreeStep)
    {
        var (brix, celsius) = (brixStep * 29.0 / 255, 10 + (degreeStep * 19.0 / 255));
        var here = Refractometry.CorrectTo20Celsius(brix, celsius);
        Assert.True(Refractometry.CorrectTo20Celsius(brix + 0.1, celsius) > here);
        Assert.True(Refractometry.CorrectTo20Celsius(brix, celsius + 0.1) > here);
    }

    [Property]
    public void CorrectTo20Celsius_OverAnEntry_DoesNotJump(byte degree, byte column)
    {
        var (celsius, brix) = (11 + (degree % 19), 5.0 * (1 + (column % 3)));
        Assert.Equal(Refractometry.CorrectTo20Celsius(brix - 1e-9, celsius - 1e-9), Refractometry.CorrectTo20Celsius(brix + 1e-9, celsius + 1e-9), tolerance: 1e-7);
    }

    [Theory]
    [InlineData("brix", -0.1, 20)]
    [InlineData("brix", 30.1, 20)]
    [InlineData("brix", double.NaN, 20)]
    [InlineData("temperatureCelsius", 5, 9.9)]
    [InlineData("temperatureCelsius", 5, 30.1)]
    [InlineData("temperatureCelsius", 5, double.NaN)]
    public void CorrectTo20Celsius_OutOfRange_IsRefusedByName(string argument, double brix, double celsius) =>
        Assert.Throws<ArgumentOutOfRangeException>(argument, () => Refractometry.CorrectTo20Celsius(brix, celsius));

    [Theory]
    [InlineData("brix20", 0.1, 0.2, 1.5)]
    [InlineData("brix20", 31.1, 0, 1)]
    [InlineData("brix20", 12, 0, 10)]
    [InlineData("brix20", double.NaN, 0, 1)]
    [InlineData("waterBrix", 6, 5.1, 1)]
    [InlineData("waterBrix", 6, -1.1, 1)]
    [InlineData("factor", 6, 0, 0)]
    [InlineData("factor", 6, 0, 20.1)]
    public void Percent_OutOfRange_IsRefusedByName(string argument, double brix20, double waterBrix, double factor) =>
        Assert.Throws<ArgumentOutOfRangeException>(argument, () => Refractometry.Percent(brix20, waterBrix, factor));

    [Fact]
    public void Percent_ExactlyOneHundred_IsAccepted() => Assert.Equal(100, Refractometry.Percent(10, 0, 10));

    [Theory]
    [InlineData(0, 20, 0)]
    [InlineData(0, 30, 0)]
    [InlineData(-1, 10, 0)]
    [InlineData(0.5, 20, 0.5)]
    [InlineData(0, 10, 0.504032)]
    public void LowestReading_WaterAndTemperature_IsWhereTheConcentrationStarts(double waterBrix, double celsius, double expected) =>
        Assert.Equal(expected, Refractometry.LowestReading(waterBrix, celsius), tolerance: 1e-6);

    [Theory]
    [InlineData(-0.5, 0)]
    [InlineData(0.3, 0.3)]
    public void LowestReading_CompensatingInstrument_IsTheWatersReading(double waterBrix, double expected) =>
        Assert.Equal(expected, Refractometry.LowestReading(waterBrix, null));

    [Property]
    public void LowestReading_AnyWaterAndTemperature_IsAcceptedAndNothingLowerIs(byte waterStep, byte degreeStep)
    {
        var (water, celsius) = (-1 + (waterStep * 6.0 / 255), 10 + (degreeStep * 20.0 / 255));
        var lowest = Refractometry.LowestReading(water, celsius);
        Assert.InRange(Refractometry.Percent(Refractometry.CorrectTo20Celsius(lowest, celsius), water, 1), 0, 1.8);
        Assert.True(lowest == 0 || Refractometry.CorrectTo20Celsius(lowest - 2e-9, celsius) < water);
    }

    [Fact]
    public void LowestReading_OutOfRange_IsRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("waterBrix", () => Refractometry.LowestReading(5.1, null));
        Assert.Throws<ArgumentOutOfRangeException>("temperatureCelsius", () => Refractometry.LowestReading(0, 31));
    }

    [Theory]
    [InlineData(0, 1, null, 30)]
    [InlineData(0, 5, null, 20)]
    [InlineData(0.5, 10, null, 10.5)]
    [InlineData(-1, 20, null, 4)]
    [InlineData(0, 5, 20.0, 20)]
    [InlineData(0, 1, 30.0, 30)]
    public void HighestReading_WaterFactorAndTemperature_IsWhereTheConcentrationEnds(double waterBrix, double factor, double? celsius, double expected) =>
        Assert.Equal(expected, Refractometry.HighestReading(waterBrix, factor, celsius), tolerance: 1e-6);

    [Property]
    public void HighestReading_AnyWaterFactorAndTemperature_IsAcceptedAndNothingHigherIs(byte waterStep, byte factorStep, byte degreeStep)
    {
        var (water, factor, celsius) = (-1 + (waterStep * 6.0 / 255), 0.1 + (factorStep * 19.9 / 255), 10 + (degreeStep * 20.0 / 255));
        var highest = Refractometry.HighestReading(water, factor, celsius);
        Assert.InRange(Refractometry.Percent(Refractometry.CorrectTo20Celsius(highest, celsius), water, factor), 0, 100);
        Assert.True(highest == Refractometry.MaximumBrix || factor * (Refractometry.CorrectTo20Celsius(highest + 2e-9, celsius) - water) > 100);
    }

    [Fact]
    public void HighestReading_OutOfRange_IsRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("waterBrix", () => Refractometry.HighestReading(5.1, 1, null));
        Assert.Throws<ArgumentOutOfRangeException>("factor", () => Refractometry.HighestReading(0, 0, null));
        Assert.Throws<ArgumentOutOfRangeException>("temperatureCelsius", () => Refractometry.HighestReading(0, 5, 31));
    }
}
