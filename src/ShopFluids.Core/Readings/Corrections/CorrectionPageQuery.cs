using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;
using ShopFluids.Rules;

namespace ShopFluids.Core.Readings.Corrections;

/// <summary>A stored reading with all that is needed to correct it.</summary>
/// <param name="By">Who took it.</param>
/// <param name="Values">As stored, in the order of pages.</param>
/// <param name="Fields">Everything that may be measured at the sump, with the accepted ranges.</param>
/// <param name="Instruments">Tags of the instruments that may stand beside a field, by its key.</param>
public sealed record CorrectionPage(
    SumpPlace Place,
    string FluidName,
    decimal RefractometerFactor,
    decimal ZeroBrix,
    DateTime NowUtc,
    Guid ReadingId,
    DateTime TakenAtUtc,
    string By,
    string Note,
    Verdict Verdict,
    IReadOnlyList<StoredValue> Values,
    IReadOnlyList<EntryField> Fields,
    IReadOnlyDictionary<string, IReadOnlyList<string>> Instruments)
{
    /// <summary>The field that a value belongs to.</summary>
    public EntryField FieldOf(StoredValue value)
    {
        ArgumentNullException.ThrowIfNull(value);
        return Fields.First(f => f.Parameter == value.Parameter && (f.Ways[0].Method == MeasuringMethod.Titration) == (value.Method == MeasuringMethod.Titration));
    }
}

/// <summary>A measurement as it was typed and what was made of it.</summary>
/// <param name="Instrument">Its tag, where one was named.</param>
/// <param name="IsConfirmed">It was unlikely and was kept.</param>
public sealed record StoredValue(
    string Parameter,
    string Method,
    decimal RawValue,
    string RawUnit,
    decimal? TemperatureCelsius,
    string? Instrument,
    decimal Value,
    Verdict Verdict,
    Direction Direction,
    bool IsConfirmed);

public sealed class CorrectionPageQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    /// <summary>The page, or why the reading cannot be corrected: not known, of a charge that is gone, corrected before.</summary>
    public async Task<Result<CorrectionPage>> RunAsync(string sumpTag, Guid readingId, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        if (setup.FindSump(sumpTag) is not { } sump)
        {
            return new SumpNotFound(sumpTag);
        }

        if (setup.OpenCharge(sump.Id) is not { } charge)
        {
            return new NoOpenCharge(sump.Tag);
        }

        if (await ReadingCorrection.CheckAsync(db, readingId, charge, cancellationToken) is { } error)
        {
            return error;
        }

        var reading = await db.Readings.AsNoTracking().Include(r => r.Measurements).SingleAsync(r => r.Id == readingId, cancellationToken);
        var by = await db.Users.AsNoTracking().Where(p => p.Id == reading.PersonId).Select(p => p.DisplayName).FirstOrDefaultAsync(cancellationToken);
        var fluid = setup.Fluid(charge.FluidId);

        // It was worked out with the factor and the zero of then, and will be again.
        var refractometer = reading.Measurements.FirstOrDefault(m => m.Method == MeasuringMethod.Refractometer);

        // What was titrated can be corrected, also when the fluid has lost its factor since.
        var hasTitration = fluid.TitrationFactor is not null || reading.Measurements.Any(m => m.Method == MeasuringMethod.Titration);
        var fields = setup.Parameters.SelectMany(p => EntryPageQuery.FieldsOf(p, hasTitration, sump)).ToList();
        return new CorrectionPage(
            SumpPlace.Of(setup, sump, null),
            fluid.Name,
            refractometer?.Factor ?? fluid.RefractometerFactor,
            refractometer?.ZeroBrix ?? setup.Water(sump)?.ZeroBrix ?? 0,
            clock.UtcNow,
            reading.Id,
            reading.TakenAtUtc,
            by ?? "",
            reading.Note,
            reading.Verdict,
            ValuesOf(setup, reading),
            fields,
            fields.ToDictionary(f => f.Key, f => (IReadOnlyList<string>)[.. FittingInstruments.For(setup, f.Parameter, f.Ways[0].Method).Select(i => i.Tag)], StringComparer.Ordinal));
    }

    private static List<StoredValue> ValuesOf(ShopSetup setup, Reading reading)
    {
        var order = setup.Parameters.Select((p, n) => (p.Code, n)).ToDictionary(p => p.Code, p => p.n, StringComparer.Ordinal);
        return [.. reading.Measurements
            .OrderBy(m => order.GetValueOrDefault(m.Parameter, int.MaxValue)).ThenBy(m => m.Method, StringComparer.Ordinal)
            .Select(m => new StoredValue(
                m.Parameter,
                m.Method,
                m.RawValue,
                m.RawUnit,
                m.TemperatureCelsius,
                setup.Instruments.FirstOrDefault(i => i.Id == m.InstrumentId)?.Tag,
                (decimal)m.Value,
                m.Verdict,
                m.Direction,
                m.IsConfirmed))];
    }
}
