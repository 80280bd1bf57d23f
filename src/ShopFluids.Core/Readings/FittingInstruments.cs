using ShopFluids.Core.Instruments;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;

namespace ShopFluids.Core.Readings;

/// <summary>Which instruments measure what: a value's uncertainty must not come from the scale of another thing.</summary>
internal static class FittingInstruments
{
    public static IEnumerable<Instrument> For(ShopSetup setup, string parameter, string method) =>
        setup.Instruments.Where(i => Fits(i.Kind, parameter, method));

    private static bool Fits(InstrumentKind kind, string parameter, string method) => kind switch
    {
        InstrumentKind.Refractometer => parameter == ParameterCodes.Concentration && method != MeasuringMethod.Titration,
        InstrumentKind.PhMeter or InstrumentKind.PhStrips => parameter == ParameterCodes.Ph,
        InstrumentKind.Rule => parameter == ParameterCodes.Level,
        _ => false,
    };
}
