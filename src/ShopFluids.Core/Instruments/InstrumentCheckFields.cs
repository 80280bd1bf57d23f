using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Rules.InstrumentCheck;

namespace ShopFluids.Core.Instruments;

/// <summary>What is accepted of the numbers of a check.</summary>
internal static class InstrumentCheckFields
{
    // Of a handheld scale, and a little under its zero, where one that wants setting shows.
    private const decimal UnderZero = -5;
    private const decimal MostPh = 14;
    private const decimal MostMillivolts = 1000;
    private const decimal MostCelsius = 50;

    public static List<FieldError> Check(NoteInstrumentCheck check, Instrument instrument, DateOnly today)
    {
        var errors = new List<FieldError>();
        if (check.CheckedOn > today)
        {
            errors.Add(new("checkedOn", FieldProblem.InTheFuture));
        }

        TextChecks.Check(errors, "note", check.Note, InstrumentCheck.MaximumNoteLength, isRequired: false);
        if (!instrument.NeedsChecks && (check.First ?? check.Second) is not null)
        {
            errors.Add(new("firstStandard", FieldProblem.NoStandards, Detail: instrument.Tag));
            return errors;
        }

        Point(errors, "first", check.First, check, instrument);
        Point(errors, "second", check.Second, check, instrument);
        // One press on an empty form is no check: without a reading a note must say what was found.
        if (check.First is null && (check.Second is not null || check.IsInMillivolts || (instrument.NeedsChecks && string.IsNullOrWhiteSpace(check.Note))))
        {
            errors.Add(new("firstShown", FieldProblem.Missing));
        }

        if (check.IsInMillivolts)
        {
            Millivolts(errors, check);
        }

        if (check is { First: { } first, Second: { } second } && Math.Abs(second.Standard - first.Standard) < CheckJudge.LeastDistance)
        {
            errors.Add(new("secondStandard", FieldProblem.TooNear, second.Standard, CheckJudge.LeastDistance, Unit: UnitOf(instrument)));
        }

        return errors;
    }

    private static void Point(List<FieldError> errors, string name, CheckPoint? point, NoteInstrumentCheck check, Instrument instrument)
    {
        if (point is not { } typed)
        {
            return;
        }

        var (isPh, unit) = (instrument.Kind == InstrumentKind.PhMeter, UnitOf(instrument));
        SetupFields.Range(errors, $"{name}Standard", typed.Standard, 0, isPh ? MostPh : MeasurementReader.MaximumBrix, unit);
        if (check.IsInMillivolts)
        {
            SetupFields.Range(errors, $"{name}Shown", typed.Shown, -MostMillivolts, MostMillivolts, "mV");
        }
        else
        {
            SetupFields.Range(errors, $"{name}Shown", typed.Shown, isPh ? 0 : UnderZero, isPh ? MostPh : MeasurementReader.MaximumBrix, unit);
        }
    }

    private static string UnitOf(Instrument instrument) => instrument.Kind == InstrumentKind.PhMeter ? "pH" : "Brix";

    private static void Millivolts(List<FieldError> errors, NoteInstrumentCheck check)
    {
        if (check.Second is null)
        {
            errors.Add(new("secondShown", FieldProblem.Missing));
        }

        if (check.Celsius is { } celsius)
        {
            SetupFields.Range(errors, "celsius", celsius, 0, MostCelsius, "°C");
        }
        else
        {
            errors.Add(new("celsius", FieldProblem.Missing));
        }
    }
}
