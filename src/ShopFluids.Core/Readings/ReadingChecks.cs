using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;

namespace ShopFluids.Core.Readings;

/// <summary>Checks everything about a typed reading and reports every fault at once.</summary>
internal static class ReadingChecks
{
    /// <summary>A tablet's clock may run this far ahead of the server's.</summary>
    public static readonly TimeSpan AllowedClockSkew = TimeSpan.FromMinutes(5);

    /// <param name="superseded">What the reading that is corrected held: its factor and the zero of its water stay, whatever was set up since.</param>
    public static (IReadOnlyList<WorkedMeasurement> Worked, IReadOnlyList<FieldError> Errors) Check(RecordReading command, ShopSetup setup, Sump sump, Charge charge, DateTime nowUtc, IReadOnlyList<Measurement> superseded)
    {
        var errors = new List<FieldError>();
        if (command.Id == Guid.Empty)
        {
            errors.Add(new(FieldNames.Id, FieldProblem.Missing));
        }

        if (command.TakenAtUtc > nowUtc + AllowedClockSkew)
        {
            errors.Add(new(FieldNames.TakenAt, FieldProblem.InTheFuture));
        }
        else if (command.TakenAtUtc < charge.FilledAtUtc)
        {
            errors.Add(new(FieldNames.TakenAt, FieldProblem.BeforeTheFill, EarliestUtc: charge.FilledAtUtc));
        }

        TextChecks.Check(errors, FieldNames.Note, command.Note, Reading.MaximumNoteLength, isRequired: false);
        TextChecks.Check(errors, FieldNames.CorrectionReason, command.CorrectionReason, Reading.MaximumReasonLength, isRequired: command.SupersedesId is not null);

        if (command.Measurements.Count == 0)
        {
            errors.Add(new(FieldNames.Measurements, FieldProblem.NothingMeasured));
        }

        var reader = new MeasurementReader(setup, sump, charge, superseded);
        var worked = command.Measurements.Select(m => reader.Read(m, errors)).OfType<WorkedMeasurement>().ToList();
        foreach (var twice in worked.GroupBy(w => (w.Parameter.Code, w.Method)).Where(g => g.Count() > 1))
        {
            errors.Add(new(FieldNames.Of(twice.Key.Code), FieldProblem.TwiceInOneReading));
        }

        return ([.. worked.OrderBy(w => w.Parameter.Order).ThenBy(w => w.Method, StringComparer.Ordinal)], errors);
    }
}
