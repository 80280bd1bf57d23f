using ShopFluids.Calculations.Concentrations;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Readings;

/// <summary>From the raw value to the one that is shown and judged: unit, method, factor, temperature, rounding (invariant 4).</summary>
public sealed class WorkedValueTests
{
    [Theory]
    [EachDatabase(ParameterCodes.Level, 300.0, "mm", 300)]
    [EachDatabase(ParameterCodes.Level, 11.81, "in", 300)]
    [EachDatabase(ParameterCodes.Level, 75.0, "%", 300)]
    [EachDatabase(ParameterCodes.Level, 400.0, "mm", 400)]
    [EachDatabase(ParameterCodes.Level, 0.0, "mm", 0)]
    [EachDatabase(ParameterCodes.Temperature, 68.0, "°F", 20)]
    [EachDatabase(ParameterCodes.Hardness, 10.0, "gpg", 171)]
    [EachDatabase(ParameterCodes.Hardness, 10.0, "dH", 178)]
    [EachDatabase(ParameterCodes.Bacteria, 10000.0, "CFU/mL", 4.0)]
    [EachDatabase(ParameterCodes.Bacteria, 1.0, "CFU/mL", 0)]
    [EachDatabase(ParameterCodes.Bacteria, 0.0, "CFU/mL", 0)]
    [EachDatabase(ParameterCodes.Bacteria, 31623.0, "CFU/mL", 4.5)]
    [EachDatabase(ParameterCodes.Concentration, 7.35, "%", 7.4)]
    [EachDatabase(ParameterCodes.Ph, 8.95, "pH", 9.0)]
    [EachDatabase(ParameterCodes.Ph, 8.94, "PH", 8.9)]
    public async Task HandleAsync_UnitAsTyped_IsWorkedOutAndRoundedOnce(TestDatabase database, string parameter, double raw, string unit, double expected)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        var measured = await MeasureAsync(shop, Some.Typed(parameter, (decimal)raw, unit, parameter == ParameterCodes.Concentration ? "direct" : null));

        Assert.Equal(((decimal)raw, (decimal)expected), (measured.RawValue, measured.Value));
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_FinePhMeter_KeepsItsSecondDecimal(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.InstrumentAsync(Some.PhMeter());

        Assert.Equal(8.94m, (await MeasureAsync(shop, Some.Typed(ParameterCodes.Ph, 8.94m, instrument: "ph-1"))).Value);
        Assert.Equal(8.9m, (await MeasureAsync(shop, Some.Typed(ParameterCodes.Ph, 8.94m))).Value);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_Titration_MultipliesByTheFluidsFactor(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        var measured = await MeasureAsync(shop, Some.Typed(ParameterCodes.Concentration, 15.3m, "mL", "titration"));

        Assert.Equal((7.7m, "titration", "mL"), (measured.Value, measured.Method, measured.RawUnit));
    }

    // Half width a without an instrument: 2 a / √3; with one, its step as well: 2 √(r² / 12 + a² / 3). A titre's ± 0.1 mL times the factor.
    [Theory]
    [EachDatabase(ParameterCodes.Level, 300.0, null, null, 2.31)]
    [EachDatabase(ParameterCodes.Level, 300.0, null, "RULE-1", 3.11)]
    [EachDatabase(ParameterCodes.Ph, 9.0, null, null, 0.12)]
    [EachDatabase(ParameterCodes.Ph, 9.0, null, "PH-1", 0.06)]
    [EachDatabase(ParameterCodes.Concentration, 16.0, "titration", null, 0.06)]
    [EachDatabase(ParameterCodes.Concentration, 8.0, "direct", null, 0.35)]
    public async Task HandleAsync_HalfWidthStated_IsStoredAsExpandedUncertainty(TestDatabase database, string parameter, double raw, string? method, string? instrument, double expected)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.InstrumentAsync(Some.PhMeter());
        await shop.InstrumentAsync(new AddInstrument(Some.Id(), "RULE-1", InstrumentKind.Rule, 5, 1, true, null));

        Assert.Equal((decimal)expected, (await MeasureAsync(shop, Some.Typed(parameter, (decimal)raw, method: method, instrument: instrument))).Uncertainty, 2);
    }

    [Theory, EachDatabase]
    public async Task HandleAsync_CompensatingRefractometer_IgnoresTheTemperature(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.InstrumentAsync(Some.Refractometer());

        Assert.Equal(8.0m, (await MeasureAsync(shop, Some.Typed(ParameterCodes.Concentration, 8.0m, temperature: 29m, instrument: "R-1"))).Value);
    }

    // The same figures as the calculation gives, whose table is checked against ICUMSA elsewhere.
    [Theory]
    [EachDatabase(10.0)]
    [EachDatabase(20.0)]
    [EachDatabase(30.0)]
    public async Task HandleAsync_OtherRefractometer_IsCorrectedToTwentyDegrees(TestDatabase database, double celsius)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.InstrumentAsync(Some.Refractometer("R-2", compensates: false));
        var estimate = Refractometry.Estimate(new RefractometerReading(8.0, 0, 1.0, celsius, 0.1, 0.2));

        var measured = await MeasureAsync(shop, Some.Typed(ParameterCodes.Concentration, 8.0m, temperature: (decimal)celsius, instrument: "R-2"));

        Assert.Equal(decimal.Round((decimal)estimate.Value, 1, MidpointRounding.AwayFromZero), measured.Value);
        Assert.Equal(decimal.Round((decimal)estimate.ExpandedUncertainty, 2, MidpointRounding.AwayFromZero), measured.Uncertainty);
        Assert.Equal(Math.Sign(celsius - 20), measured.Value.CompareTo(8.0m));
    }

    // What is worked out is what is stored, judged and kept in the standing.
    [Theory, EachDatabase]
    public async Task HandleAsync_RoundedOntoALimit_IsInsideIt(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);

        var measured = await MeasureAsync(shop, Some.Typed(ParameterCodes.Concentration, 6.95m));

        Assert.Equal((7.0m, Verdict.InRange), (measured.Value, measured.Verdict));
    }

    // More digits than the columns hold must not make the record differ from the row.
    [Theory, EachDatabase]
    public async Task HandleAsync_ManyDecimals_AreStoredAsTheRecordSays(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await shop.InstrumentAsync(Some.Refractometer("R-2", compensates: false));

        await shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.Concentration, 8.123456789m, temperature: 20.987654321m, instrument: "R-2"), Some.Typed(ParameterCodes.Level, 299.99999999m)));
        (await shop.AddAsync(Some.Addition(shop.LotId, water: 1.23456789m, concentrate: 0.123456789m, removed: 0.3333333333m))).Done();

        Assert.Empty((await shop.VerifyAsync()).Findings);
    }

    private static async Task<MeasurementOutcome> MeasureAsync(ShopFixture shop, TypedMeasurement typed) =>
        Assert.Single((await shop.StoreAsync(Some.ReadingOf(typed))).Measurements);
}
