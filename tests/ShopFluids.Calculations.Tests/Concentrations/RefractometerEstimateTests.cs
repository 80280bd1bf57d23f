using FsCheck.Xunit;
using MathNet.Numerics;
using ShopFluids.Calculations.Concentrations;
using Xunit;

namespace ShopFluids.Calculations.Tests.Concentrations;

[Properties(MaxTest = 300, Replay = "20260101,20260103")]
public sealed class RefractometerEstimateTests
{
    // The worked example of docs/calculations/concentration.md.
    [Fact]
    public void Estimate_WithoutCompensationAt25Degrees_MatchesTheWorkedExample()
    {
        var estimate = Refractometry.Estimate(new RefractometerReading(5.0, 0.2, 1.6, 25, 0.1, 0.2));
        Assert.Equal(8.24, estimate.Value, 9);
        Assert.Equal(0.398, estimate.ExpandedUncertainty, 3);
    }

    [Fact]
    public void Estimate_CompensatingInstrument_LeavesTemperatureOut()
    {
        var estimate = Refractometry.Estimate(new RefractometerReading(5.0, 0, 1.6, null, 0.1, 0.2, 5));
        Assert.Equal(8, estimate.Value, 12);

        // u = 1.6 √(0.1²/12 + 0.2²/3 + 0.1²/12), U = 2 u.
        Assert.Equal(2 * 1.6 * Math.Sqrt((0.01 / 12) + (0.04 / 3) + (0.01 / 12)), estimate.ExpandedUncertainty, 12);
    }

    // Oracle: derivatives taken numerically (MathNet) instead of from the table's slopes. Points off the table's entries, where it has no kink.
    [Property]
    public void Estimate_AnyReading_AgreesWithNumericalPropagation(byte brixStep, byte degreeStep, byte factorStep)
    {
        var brix = Math.Round(2.3 + (brixStep * 25.0 / 255), 1) + 0.03;
        var celsius = Math.Round(10.5 + (degreeStep * 19.0 / 255), 1) + 0.03;
        var factor = 0.8 + (factorStep / 255.0 * 2.2);
        var estimate = Refractometry.Estimate(new RefractometerReading(brix, 0.2, factor, celsius, 0.2, 0.1, 0.5));

        double Percent(double b, double t) => factor * (Refractometry.CorrectTo20Celsius(b, t) - 0.2);
        var byBrix = Differentiate.FirstDerivative(b => Percent(b, celsius), brix);
        var byCelsius = Differentiate.FirstDerivative(t => Percent(brix, t), celsius);
        var expected = 2 * Math.Sqrt(
            (byBrix * byBrix * ((0.04 / 12) + (0.01 / 3))) + (factor * factor * 0.04 / 12) + (byCelsius * byCelsius * 0.25 / 12));
        Assert.Equal(Percent(brix, celsius), estimate.Value, tolerance: 1e-9);
        Assert.Equal(expected, estimate.ExpandedUncertainty, tolerance: 1e-5);
    }

    [Fact]
    public void Estimate_CoarserInstrument_IsLessCertain()
    {
        var fine = Refractometry.Estimate(new RefractometerReading(5, 0, 1.6, 25, 0.1, 0.1));
        Assert.True(Refractometry.Estimate(new RefractometerReading(5, 0, 1.6, 25, 0.2, 0.1)).ExpandedUncertainty > fine.ExpandedUncertainty);
        Assert.True(Refractometry.Estimate(new RefractometerReading(5, 0, 1.6, 25, 0.1, 0.2)).ExpandedUncertainty > fine.ExpandedUncertainty);
        Assert.True(Refractometry.Estimate(new RefractometerReading(5, 0, 1.6, 25, 0.1, 0.1, 2)).ExpandedUncertainty > fine.ExpandedUncertainty);
    }

    [Fact]
    public void Estimate_ColdSampleReadingZero_IsRefusedInsteadOfBeingNegative() =>
        Assert.Throws<ArgumentOutOfRangeException>("brix20", () => Refractometry.Estimate(new RefractometerReading(0, 0, 1.6, 15, 0.1, 0.1)));

    [Theory]
    [InlineData("Brix", -0.1, 0, 1, 20, 0, 0, 0)]
    [InlineData("Brix", 30.1, 0, 1, 20, 0, 0, 0)]
    [InlineData("WaterBrix", 5, -1.1, 1, 20, 0, 0, 0)]
    [InlineData("WaterBrix", 5, 5.1, 1, 20, 0, 0, 0)]
    [InlineData("Factor", 5, 0, 0, 20, 0, 0, 0)]
    [InlineData("Factor", 5, 0, 20.1, 20, 0, 0, 0)]
    [InlineData("TemperatureCelsius", 5, 0, 1, 9.9, 0, 0, 0)]
    [InlineData("TemperatureCelsius", 5, 0, 1, 30.1, 0, 0, 0)]
    [InlineData("ResolutionBrix", 5, 0, 1, 20, -0.1, 0, 0)]
    [InlineData("AccuracyBrix", 5, 0, 1, 20, 0, -0.1, 0)]
    [InlineData("TemperatureResolutionCelsius", 5, 0, 1, 20, 0, 0, double.NaN)]
    public void Reading_OutOfRange_IsRefusedByName(
        string argument, double brix, double water, double factor, double celsius, double resolution, double accuracy, double temperatureResolution) =>
        Assert.Throws<ArgumentOutOfRangeException>(
            argument, () => new RefractometerReading(brix, water, factor, celsius, resolution, accuracy, temperatureResolution));
}
