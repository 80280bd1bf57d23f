using ShopFluids.Calculations.Tests.Vectors;
using ShopFluids.Calculations.Volumes;
using UnitsNet;
using Xunit;

namespace ShopFluids.Calculations.Tests.Volumes;

public sealed class UnitsTests
{
    /// <summary>volume_units.csv: NIST Handbook 44, Appendix C; the US gallon of 231 cubic inches was read.</summary>
    public static TheoryData<string[]> VolumeFactors => VectorFile.Theory("volume_units");

    /// <summary>hardness_units.csv: computed from definitions; 17.1 for the grain was read.</summary>
    public static TheoryData<string[]> HardnessFactors => VectorFile.Theory("hardness_units");

    [Theory]
    [MemberData(nameof(VolumeFactors))]
    public void VolumeUnits_NistHandbook44_Agrees(string[] row)
    {
        var factor = (row[0], row[1]) switch
        {
            ("US gal", "L") => VolumeUnits.LitresFromUsGallons(1),
            ("imp gal", "L") => VolumeUnits.LitresFromImperialGallons(1),
            ("in3", "L") => VolumeUnits.LitresPerCubicInch,
            ("ft3", "L") => VolumeUnits.LitresPerCubicFoot,
            ("ft3", "US gal") => VolumeUnits.UsGallonsFromLitres(VolumeUnits.LitresPerCubicFoot),
            ("US qt", "L") => VolumeUnits.LitresPerUsQuart,
            ("US fl oz", "mL") => VolumeUnits.MillilitresPerUsFluidOunce,
            ("imp gal", "US gal") => VolumeUnits.UsGallonsFromLitres(VolumeUnits.LitresPerImperialGallon),
            ("m3", "US gal") => VolumeUnits.UsGallonsFromLitres(1000),
            _ => throw new InvalidOperationException($"No check for {row[0]} to {row[1]}."),
        };
        var printed = VectorFile.Number(row[2]);
        Assert.Equal(printed, factor, tolerance: printed * 1e-8);
    }

    [Fact]
    public void VolumeUnits_UsGallon_Is231CubicInches() => Assert.Equal(231 * VolumeUnits.LitresPerCubicInch, VolumeUnits.LitresPerUsGallon, 12);

    [Theory]
    [InlineData(0)]
    [InlineData(35)]
    [InlineData(1234.5)]
    public void Conversions_UnitsNetAsOracle_AgreeBothWays(double value)
    {
        Assert.Equal(Volume.FromUsGallons(value).Liters, VolumeUnits.LitresFromUsGallons(value), 9);
        Assert.Equal(Volume.FromLiters(value).UsGallons, VolumeUnits.UsGallonsFromLitres(value), 9);
        Assert.Equal(Volume.FromImperialGallons(value).Liters, VolumeUnits.LitresFromImperialGallons(value), 9);
        Assert.Equal(Volume.FromLiters(value).ImperialGallons, VolumeUnits.ImperialGallonsFromLitres(value), 9);
        Assert.Equal(Length.FromInches(value).Millimeters, LengthUnits.MillimetresFromInches(value), 9);
        Assert.Equal(Length.FromMillimeters(value).Inches, LengthUnits.InchesFromMillimetres(value), 9);
        Assert.Equal(Temperature.FromDegreesFahrenheit(value).DegreesCelsius, TemperatureUnits.CelsiusFromFahrenheit(value), 9);
        Assert.Equal(Temperature.FromDegreesCelsius(value).DegreesFahrenheit, TemperatureUnits.FahrenheitFromCelsius(value), 9);
    }

    [Fact]
    public void TemperatureUnits_AbsoluteZero_IsTheSameOnBothScales()
    {
        Assert.Equal(TemperatureUnits.AbsoluteZeroFahrenheit, TemperatureUnits.FahrenheitFromCelsius(TemperatureUnits.AbsoluteZeroCelsius), 9);
        Assert.Throws<ArgumentOutOfRangeException>("celsius", () => TemperatureUnits.FahrenheitFromCelsius(-273.16));
        Assert.Throws<ArgumentOutOfRangeException>("fahrenheit", () => TemperatureUnits.CelsiusFromFahrenheit(-459.68));
    }

    [Theory]
    [MemberData(nameof(HardnessFactors))]
    public void HardnessUnits_ComputedFactors_Agree(string[] row)
    {
        var unit = row[0] switch
        {
            "mg/L CaCO3" => HardnessUnit.MgPerLitreCaCO3,
            "grain per US gallon (gpg)" => HardnessUnit.GrainPerUsGallon,
            "degree dH (German, 10 mg CaO/L)" => HardnessUnit.GermanDegree,
            "degree fH (French)" => HardnessUnit.FrenchDegree,
            "degree Clark / English (grain per imp gal)" => HardnessUnit.ClarkDegree,
            "mmol/L (Ca+Mg)" => HardnessUnit.MillimolePerLitre,
            "meq/L (mval/L)" => HardnessUnit.MilliequivalentPerLitre,
            "mg/L Ca" => HardnessUnit.MgPerLitreCalcium,
            "mg/L Mg" => HardnessUnit.MgPerLitreMagnesium,
            _ => throw new InvalidOperationException($"No check for {row[0]}."),
        };
        var printed = VectorFile.Number(row[1]);
        Assert.Equal(printed, HardnessUnits.MgPerLitreCaCO3Per(unit), tolerance: printed * 2e-6);
        Assert.Equal(12 * printed, HardnessUnits.ToMgPerLitreCaCO3(12, unit), tolerance: 12 * printed * 2e-6);
        Assert.Equal(12, HardnessUnits.FromMgPerLitreCaCO3(HardnessUnits.ToMgPerLitreCaCO3(12, unit), unit), 9);
    }

    [Fact]
    public void HardnessUnits_TenGrains_AreAbout171Ppm() =>
        Assert.Equal(171, HardnessUnits.ToMgPerLitreCaCO3(10, HardnessUnit.GrainPerUsGallon), tolerance: 0.5);

    [Fact]
    public void Conversions_BadInput_IsRefusedByName()
    {
        Assert.Throws<ArgumentOutOfRangeException>("unit", () => HardnessUnits.MgPerLitreCaCO3Per((HardnessUnit)9));
        Assert.Throws<ArgumentOutOfRangeException>("value", () => HardnessUnits.ToMgPerLitreCaCO3(-1, HardnessUnit.GermanDegree));
        Assert.Throws<ArgumentOutOfRangeException>("mgPerLitreCaCO3", () => HardnessUnits.FromMgPerLitreCaCO3(double.NaN, HardnessUnit.GermanDegree));
        Assert.Throws<ArgumentOutOfRangeException>("usGallons", () => VolumeUnits.LitresFromUsGallons(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>("imperialGallons", () => VolumeUnits.LitresFromImperialGallons(double.PositiveInfinity));
        Assert.Throws<ArgumentOutOfRangeException>("litres", () => VolumeUnits.UsGallonsFromLitres(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>("litres", () => VolumeUnits.ImperialGallonsFromLitres(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>("inches", () => LengthUnits.MillimetresFromInches(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>("millimetres", () => LengthUnits.InchesFromMillimetres(double.NaN));
    }
}
