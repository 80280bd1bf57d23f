using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Record;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Setup;

/// <summary>Makes the site, or changes it.</summary>
/// <param name="ClosedWeekdays">Bits, Sunday = 1 to Saturday = 64; not all seven.</param>
/// <param name="LockMinutes">Minutes without a touch, 1 to 60, after which a shared tablet locks; null takes the usual 5.</param>
/// <param name="SeenVersion">The version that the person saw, so that two people do not overwrite each other; null when made.</param>
public sealed record SaveSite(
    Guid Id,
    string Name,
    string TimeZoneId,
    string Culture,
    UnitSystem Units,
    string Currency,
    int DayStartHour,
    int ClosedWeekdays,
    decimal MeasurableLitres,
    string? SafetySheetPlace,
    long? SeenVersion = null,
    int? LockMinutes = null)
{
    /// <summary>When the shifts of a day end, such as "14:00, 22:00"; empty where the shop names none.</summary>
    public string ShiftEnds { get; init; } = "";

    /// <summary>1 to 100 years each.</summary>
    public Retention Retention { get; init; } = Retention.Of(null);
}

/// <summary>Somebody else changed it since it was read.</summary>
public sealed record ChangedMeanwhile(long CurrentVersion) : Error;

public sealed class SaveSiteHandler(ShopDatabase database, ShopClock clock)
{
    private const decimal SmallestStepLitres = 0.01m;
    private const decimal LargestStepLitres = 10m;

    public async Task<Result<Saved>> HandleAsync(SaveSite command, Actor actor, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(command);
        var errors = Check(command);
        if (errors.Count > 0)
        {
            return new FieldErrors(errors);
        }

        await using var write = await database.WriteAsync(cancellationToken);
        var site = await write.Database.Sites.OrderBy(s => s.Id).FirstOrDefaultAsync(cancellationToken);
        if (site is null)
        {
            site = new Site(command.Id, command.Name, command.TimeZoneId, command.Culture, command.Units, command.Currency);
            write.Database.Add(site);
        }
        else if (command.SeenVersion is { } seen && seen != site.Version)
        {
            return new ChangedMeanwhile(site.Version);
        }
        else if (await LargestStepAsync(write.Database, cancellationToken) is { } largest && command.MeasurableLitres > largest)
        {
            return new FieldErrors([new("measurableLitres", FieldProblem.OutOfRange, command.MeasurableLitres, SmallestStepLitres, largest, "L")]);
        }

        // The check has read it.
        _ = ShiftTimes.TryRead(command.ShiftEnds, command.DayStartHour, out var shiftEnds);
        site.Change(command.Name.Trim(), command.TimeZoneId, command.Culture, command.Units, command.Currency.ToUpperInvariant(), command.DayStartHour, command.ClosedWeekdays, command.MeasurableLitres, command.SafetySheetPlace, command.LockMinutes == Site.UsualLockMinutes ? null : command.LockMinutes, ShiftTimes.Written(shiftEnds));
        site.Keep(command.Retention);
        await write.CommitAsync(new Act(ActCodes.SetupChanged, actor, clock.UtcNow, site.Name), cancellationToken);
        return new Saved(site.Id);
    }

    // A step larger than a sump up to its full mark would leave that sump without a recipe.
    private static async Task<decimal?> LargestStepAsync(ShopFluidsDbContext db, CancellationToken cancellationToken) =>
        (await db.Sumps.AsNoTracking().Where(s => !s.IsRetired).ToListAsync(cancellationToken))
            .Min(s => (decimal?)decimal.Round((decimal)s.Geometry.VolumeLitresAt((double)s.FullMarkMm), 2, MidpointRounding.ToZero));

    private static List<FieldError> Check(SaveSite command)
    {
        var errors = new List<FieldError>();
        TextChecks.Check(errors, "name", command.Name, 120);
        TextChecks.Check(errors, "safetySheetPlace", command.SafetySheetPlace, 200, isRequired: false);
        SetupFields.Range(errors, "dayStartHour", command.DayStartHour, 0, 23);
        SetupFields.Range(errors, "closedWeekdays", command.ClosedWeekdays, 0, 126);
        SetupFields.Range(errors, "measurableLitres", command.MeasurableLitres, SmallestStepLitres, LargestStepLitres, "L");
        SetupFields.Range(errors, "lockMinutes", command.LockMinutes ?? Site.UsualLockMinutes, 1, 60, "min");
        SetupFields.Range(errors, "fluidKeepYears", command.Retention.FluidYears, Retention.LeastYears, Retention.MostYears);
        SetupFields.Range(errors, "exposureKeepYears", command.Retention.ExposureYears, Retention.LeastYears, Retention.MostYears);
        if (command.DayStartHour is >= 0 and <= 23 && !ShiftTimes.TryRead(command.ShiftEnds, command.DayStartHour, out _))
        {
            errors.Add(new("shiftEnds", FieldProblem.NotClockTimes, Detail: command.ShiftEnds));
        }

        if (!TimeZoneInfo.TryFindSystemTimeZoneById(command.TimeZoneId, out _))
        {
            errors.Add(new("timeZone", FieldProblem.UnknownChoice, Detail: command.TimeZoneId));
        }

        if (!CultureInfo.GetCultures(CultureTypes.SpecificCultures).Any(c => c.Name == command.Culture))
        {
            errors.Add(new("culture", FieldProblem.UnknownChoice, Detail: command.Culture));
        }

        if (command.Currency.Length != 3)
        {
            errors.Add(new("currency", FieldProblem.UnknownChoice, Detail: command.Currency));
        }

        return errors;
    }
}
