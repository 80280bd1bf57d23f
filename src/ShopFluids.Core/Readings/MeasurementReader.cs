using ShopFluids.Calculations.Concentrations;
using ShopFluids.Calculations.Volumes;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.Limits;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Rules;

namespace ShopFluids.Core.Readings;

/// <summary>Turns a typed value into one in the canonical unit, or says at which field and why not.</summary>
internal sealed class MeasurementReader(ShopSetup setup, Sump sump, Charge charge, IReadOnlyList<Measurement> superseded)
{
    /// <summary>Handheld scales end at 32 Brix; the temperature table of the calculations at 30. Common practice, no source.</summary>
    public const decimal MaximumBrix = 30m;

    // The same as in the calculations, exact as decimals; a test holds them together.
    internal const decimal MillimetresPerInch = 25.4m;
    internal const decimal MinimumTemperatureCelsius = 10m;
    internal const decimal MaximumTemperatureCelsius = 30m;

    private const decimal DefaultRefractometerResolution = 0.1m;
    private const decimal DefaultRefractometerAccuracy = 0.2m;

    private readonly Fluid _fluid = setup.Fluid(charge.FluidId);

    public WorkedMeasurement? Read(TypedMeasurement typed, List<FieldError> errors)
    {
        var field = FieldNames.Of(typed.Parameter);
        if (setup.FindParameter(typed.Parameter) is not { } parameter)
        {
            errors.Add(new(field, FieldProblem.UnknownParameter, Detail: string.Join(", ", setup.Parameters.Select(p => p.Code))));
            return null;
        }

        var methods = MeasuringMethod.For(parameter);
        var method = string.IsNullOrEmpty(typed.Method) ? methods[0] : methods.FirstOrDefault(m => m.Code == typed.Method);
        if (method is null)
        {
            errors.Add(new(FieldNames.MethodOf(typed.Parameter), FieldProblem.UnknownMethod, Detail: string.Join(", ", methods.Select(m => m.Code))));
            return null;
        }

        var unit = string.IsNullOrEmpty(typed.Unit) ? method.Units[0] : method.Units.FirstOrDefault(u => u.Equals(typed.Unit, StringComparison.OrdinalIgnoreCase));
        if (unit is null)
        {
            errors.Add(new(FieldNames.UnitOf(typed.Parameter), FieldProblem.UnknownUnit, Detail: string.Join(", ", method.Units)));
            return null;
        }

        Instrument? instrument = null;
        if (!string.IsNullOrEmpty(typed.Instrument))
        {
            var fitting = FittingInstruments.For(setup, parameter.Code, method.Code).ToList();
            instrument = fitting.Find(i => i.TagKey == Machines.Tags.Key(typed.Instrument));
            if (instrument is null)
            {
                errors.Add(new(FieldNames.InstrumentOf(typed.Parameter), FieldProblem.UnknownInstrument, Detail: string.Join(", ", fitting.Select(i => i.Tag))));
                return null;
            }
        }

        return method.Code switch
        {
            MeasuringMethod.Refractometer => ByRefractometer(parameter, typed, unit, instrument, errors),
            MeasuringMethod.Titration => ByTitration(parameter, typed, unit, instrument, errors),
            _ => parameter.Code == ParameterCodes.Level ? AsLevel(parameter, typed, unit, instrument, errors) : Directly(parameter, method, typed, unit, instrument, errors),
        };
    }

    private WorkedMeasurement? ByRefractometer(Parameter parameter, TypedMeasurement typed, string unit, Instrument? instrument, List<FieldError> errors)
    {
        var field = FieldNames.Of(parameter.Code);
        if (!InRange(typed.Value, 0, MaximumBrix, field, unit, errors))
        {
            return null;
        }

        // Without an instrument, a temperature that was taken says that it matters.
        var compensates = instrument?.CompensatesTemperature ?? typed.TemperatureCelsius is null;
        if (!compensates && typed.TemperatureCelsius is null)
        {
            errors.Add(new(FieldNames.TemperatureOf(parameter.Code), FieldProblem.TemperatureNeeded, Low: MinimumTemperatureCelsius, High: MaximumTemperatureCelsius, Unit: "°C", Detail: instrument?.Tag));
            return null;
        }

        if (!compensates && !InRange(typed.TemperatureCelsius.GetValueOrDefault(), MinimumTemperatureCelsius, MaximumTemperatureCelsius, FieldNames.TemperatureOf(parameter.Code), "°C", errors))
        {
            return null;
        }

        var before = superseded.FirstOrDefault(m => m.Parameter == parameter.Code && m.Method == MeasuringMethod.Refractometer);
        var zero = before?.ZeroBrix ?? setup.Water(sump)?.ZeroBrix ?? 0;
        var factor = before?.Factor ?? _fluid.RefractometerFactor;
        var celsius = compensates ? null : typed.TemperatureCelsius;
        if (!InRange(typed.Value, ConcentrationRange.LowestBrix(zero, celsius), ConcentrationRange.HighestBrix(zero, factor, celsius), field, unit, errors))
        {
            return null;
        }

        var estimate = Refractometry.Estimate(new RefractometerReading(
            (double)typed.Value,
            (double)zero,
            (double)factor,
            (double?)celsius,
            (double)(instrument?.Resolution ?? DefaultRefractometerResolution),
            (double)(instrument?.Accuracy ?? DefaultRefractometerAccuracy)));

        return Worked(parameter, typed, MeasuringMethod.Refractometer, unit, instrument, (decimal)estimate.Value, (decimal)estimate.ExpandedUncertainty) with
        {
            Factor = factor,
            ZeroBrix = zero,
        };
    }

    private WorkedMeasurement? ByTitration(Parameter parameter, TypedMeasurement typed, string unit, Instrument? instrument, List<FieldError> errors)
    {
        var field = FieldNames.Of(parameter.Code);
        if ((superseded.FirstOrDefault(m => m.Parameter == parameter.Code && m.Method == MeasuringMethod.Titration)?.Factor ?? _fluid.TitrationFactor) is not { } factor)
        {
            errors.Add(new(FieldNames.MethodOf(parameter.Code), FieldProblem.UnknownMethod, Detail: MeasuringMethod.Refractometer));
            return null;
        }

        if (!InRange(typed.Value, 0, ConcentrationRange.HighestTitre(factor), field, unit, errors))
        {
            return null;
        }

        // With the acid and the sample that the factor is stated for, and the water's own share in the factor.
        var percent = (decimal)Titration.Percent((double)typed.Value, 0, (double)factor, 1, 1, 1, 1);
        return Worked(parameter, typed, MeasuringMethod.Titration, unit, instrument, percent, StatedUncertainty.OfTitration(factor)) with { Factor = factor };
    }

    private WorkedMeasurement? AsLevel(Parameter parameter, TypedMeasurement typed, string unit, Instrument? instrument, List<FieldError> errors)
    {
        var brim = sump.Shape.BrimMm;
        var millimetres = unit switch
        {
            "in" => Bounded(typed.Value) * MillimetresPerInch,
            "%" => Bounded(typed.Value) * brim / 100,
            _ => typed.Value,
        };
        if (millimetres < 0 || millimetres > brim)
        {
            var high = unit switch
            {
                "in" => decimal.Round(brim / MillimetresPerInch, 2, MidpointRounding.ToZero),
                "%" => 100,
                _ => brim,
            };
            errors.Add(new(FieldNames.Of(parameter.Code), millimetres > brim ? FieldProblem.OverTheBrim : FieldProblem.OutOfRange, typed.Value, 0, high, unit));
            return null;
        }

        // A brim that is no whole millimetre: a level at it is rounded to the inside, not over it.
        var worked = Worked(parameter, typed, "", unit, instrument, millimetres, StatedUncertainty.Of(parameter, instrument));
        return worked.Value > brim ? worked with { Value = decimal.Round(brim, parameter.Decimals, MidpointRounding.ToZero) } : worked;
    }

    private static WorkedMeasurement? Directly(Parameter parameter, MeasuringMethod method, TypedMeasurement typed, string unit, Instrument? instrument, List<FieldError> errors)
    {
        var field = FieldNames.Of(parameter.Code);
        var value = ToCanonical(Bounded(typed.Value), unit);
        if (value < parameter.PlausibleLow || value > parameter.PlausibleHigh)
        {
            var (low, high, shown) = unit == method.Units[0]
                ? (parameter.PlausibleLow, parameter.PlausibleHigh, parameter.Unit)
                : (FromCanonical(parameter.PlausibleLow, unit), FromCanonical(parameter.PlausibleHigh, unit), unit);
            errors.Add(new(field, FieldProblem.OutOfRange, typed.Value, low, high, shown));
            return null;
        }

        if (parameter.Scale == ParameterScale.Words && value != decimal.Truncate(value))
        {
            errors.Add(new(field, FieldProblem.UnknownChoice, typed.Value, parameter.PlausibleLow, parameter.PlausibleHigh));
            return null;
        }

        return Worked(parameter, typed, method.Code == MeasuringMethod.Direct && parameter.Code == ParameterCodes.Concentration ? MeasuringMethod.Direct : "", unit, instrument, value, StatedUncertainty.Of(parameter, instrument));
    }

    // Far outside every range, and small enough to be converted without overflow.
    private static decimal Bounded(decimal typed) => decimal.Clamp(typed, -1_000_000_000_000m, 1_000_000_000_000m);

    private static decimal ToCanonical(decimal value, string unit) => unit switch
    {
        "°F" => (value - 32) * 5 / 9,
        "gpg" => value * (decimal)HardnessUnits.MgPerLitreCaCO3Per(HardnessUnit.GrainPerUsGallon),
        "dH" => value * (decimal)HardnessUnits.MgPerLitreCaCO3Per(HardnessUnit.GermanDegree),
        "CFU/mL" => value switch
        {
            < 0 => value,
            < 1 => 0,
            _ => (decimal)Math.Log10((double)value),
        },
        _ => value,
    };

    // An end of the accepted range in the unit in which the value was typed, rounded to the inside.
    private static decimal FromCanonical(decimal value, string unit) => unit switch
    {
        "°F" => (value * 9 / 5) + 32,
        "gpg" => decimal.Round(value / (decimal)HardnessUnits.MgPerLitreCaCO3Per(HardnessUnit.GrainPerUsGallon), 1, MidpointRounding.ToZero),
        "dH" => decimal.Round(value / (decimal)HardnessUnits.MgPerLitreCaCO3Per(HardnessUnit.GermanDegree), 1, MidpointRounding.ToZero),
        "CFU/mL" => value <= 0 ? 0 : (decimal)Math.Pow(10, (double)value),
        _ => value,
    };

    private static bool InRange(decimal value, decimal low, decimal high, string field, string unit, List<FieldError> errors)
    {
        if (value >= low && value <= high)
        {
            return true;
        }

        errors.Add(new(field, FieldProblem.OutOfRange, value, low, high, unit));
        return false;
    }

    // Rounded once, to the parameter's resolution (a finer instrument keeps its own step): shown, judged and stored as it stands.
    private static WorkedMeasurement Worked(Parameter parameter, TypedMeasurement typed, string method, string unit, Instrument? instrument, decimal value, decimal uncertainty)
    {
        var decimals = parameter.Code == ParameterCodes.Ph && instrument is { ShowsHundredths: true } ? 2 : parameter.Decimals;
        return new(
            parameter,
            method,
            typed.Value,
            unit,
            instrument?.Id,
            typed.TemperatureCelsius,
            null,
            null,
            decimal.Round(value, decimals, MidpointRounding.AwayFromZero),
            decimal.Round(uncertainty, Math.Max(2, decimals), MidpointRounding.AwayFromZero),
            typed.IsConfirmed);
    }
}
