using ShopFluids.Calculations.Concentrations;
using ShopFluids.Core.DemoData.Seed;
using ShopFluids.Core.Readings;
using ShopFluids.Rules;

namespace ShopFluids.Core.DemoData.History;

/// <summary>What a person with an instrument would type at a sump: the truth, some scatter, and the steps of the scale.</summary>
internal sealed class DemoReader(DemoScene scene)
{
    private const decimal MillilitreStep = 0.1m;

    public TypedMeasurement Read(SumpModel sump, string parameter) => parameter switch
    {
        ParameterCodes.Concentration => Brix(sump),
        ParameterCodes.Ph => Ph(sump),
        ParameterCodes.Level => Direct(parameter, Math.Clamp(sump.LevelMm + sump.Chance.Scatter(1), 0, sump.Geometry.BrimMm), 1),
        ParameterCodes.Odour => Direct(parameter, sump.Odour, 1),
        ParameterCodes.TrampOil => Direct(parameter, Math.Clamp(sump.OilPercent * sump.Chance.Between(0.85, 1.15), 0, 100), sump.OilPercent > 10 ? 5 : 1),
        ParameterCodes.Temperature => Direct(parameter, FluidCelsius(sump), 1),
        ParameterCodes.Bacteria => Direct(parameter, sump.ToldBacteria ?? Math.Max(0, sump.Bacteria + sump.Chance.Scatter(0.25)), 0.5m),
        ParameterCodes.Nitrite => Direct(parameter, sump.Chance.Between(1, 6), 1),
        _ => throw new InvalidDataException($"The demo does not measure {parameter}."),
    };

    /// <summary>The concentration by titration, where the fluid has a factor for it; tramp oil does not show in it.</summary>
    public static TypedMeasurement? Titrate(SumpModel sump) =>
        sump.Fluid.Data.TitrationFactor is { } factor
            ? new(ParameterCodes.Concentration, MeasuringMethod.Titration, Step((sump.Percent / (double)factor) + sump.Chance.Scatter(0.06), MillilitreStep), "mL")
            : null;

    private TypedMeasurement Brix(SumpModel sump)
    {
        var instrument = Instrument(sump.Seed.Refractometer);
        var brix = sump.Brix + sump.Chance.Scatter(0.04);
        decimal? celsius = null;
        if (!instrument.CompensatesTemperature)
        {
            celsius = Step(FluidCelsius(sump) - 2, 1);
            brix -= Refractometry.CorrectTo20Celsius(brix, (double)celsius) - brix;
        }

        return new(ParameterCodes.Concentration, MeasuringMethod.Refractometer, Step(Math.Max(brix, (double)sump.Water.ZeroBrix + 0.5), instrument.Resolution), "Brix", celsius, instrument.Tag);
    }

    private TypedMeasurement Ph(SumpModel sump)
    {
        var instrument = Instrument(sump.Seed.PhMeter);
        return Direct(ParameterCodes.Ph, sump.Ph + sump.Chance.Scatter(0.025), instrument.Resolution) with { Instrument = instrument.Tag };
    }

    // Warmer in summer, by about three degrees either way.
    private double FluidCelsius(SumpModel sump) =>
        22 - (3 * Math.Cos(2 * Math.PI * (scene.Calendar.ShopDayOf(scene.Time.UtcNow).DayOfYear - 20) / 365.0)) + sump.Chance.Scatter(0.8);

    private InstrumentSeed Instrument(string tag) => scene.Seed.Instruments.First(i => i.Tag == tag);

    private static TypedMeasurement Direct(string parameter, double value, decimal step) => new(parameter, null, Step(value, step), null);

    private static decimal Step(double value, decimal step) => decimal.Round((decimal)value / step, MidpointRounding.AwayFromZero) * step;
}
