using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Machines;

/// <summary>The shop: its name, time, language, units and working days.</summary>
public sealed class Site : Entity, ISetup
{
    private Site()
    {
    }

    public Site(Guid id, string name, string timeZoneId, string culture, UnitSystem units, string currency)
    {
        Id = id;
        Name = name;
        TimeZoneId = timeZoneId;
        Culture = culture;
        Units = units;
        Currency = currency;
    }

    public string Name { get; private set; } = "";

    /// <summary>IANA name, such as Europe/Berlin.</summary>
    public string TimeZoneId { get; private set; } = "Etc/UTC";

    /// <summary>BCP 47 tag, such as en-GB.</summary>
    public string Culture { get; private set; } = "en-GB";

    public UnitSystem Units { get; private set; }

    /// <summary>ISO 4217 code.</summary>
    public string Currency { get; private set; } = "EUR";

    /// <summary>The hour, 0 to 23, at which a shop day begins.</summary>
    public int DayStartHour { get; private set; } = 6;

    /// <summary>Closed weekdays as bits, Sunday = 1, Monday = 2, ... Saturday = 64.</summary>
    public int ClosedWeekdays { get; private set; } = 65;

    /// <summary>The smallest amount that the shop measures out, L.</summary>
    public decimal MeasurableLitres { get; private set; } = 0.1m;

    public string? SafetySheetPlace { get; private set; }

    /// <summary>Minutes without a touch after which a shared tablet locks; null is <see cref="UsualLockMinutes"/>.</summary>
    public int? LockMinutes { get; private set; }

    /// <summary>When the shifts of a day end, such as "14:00 22:00"; null where the shop names none. See <see cref="ShiftTimes"/>.</summary>
    public string? ShiftEnds { get; private set; }

    /// <summary>Years for which analyses of fluids are kept; null is <see cref="Retention.UsualFluidYears"/>.</summary>
    public int? FluidKeepYears { get; private set; }

    /// <summary>Years for which exposure is kept on record; null is <see cref="Retention.UsualExposureYears"/>.</summary>
    public int? ExposureKeepYears { get; private set; }

    public const int UsualLockMinutes = 5;

    public void Change(string name, string timeZoneId, string culture, UnitSystem units, string currency, int dayStartHour, int closedWeekdays, decimal measurableLitres, string? safetySheetPlace, int? lockMinutes, string? shiftEnds)
    {
        Name = name;
        TimeZoneId = timeZoneId;
        Culture = culture;
        Units = units;
        Currency = currency;
        DayStartHour = dayStartHour;
        ClosedWeekdays = closedWeekdays;
        MeasurableLitres = measurableLitres;
        SafetySheetPlace = safetySheetPlace;
        LockMinutes = lockMinutes;
        ShiftEnds = shiftEnds;
    }

    /// <summary>The usual years are kept as such: a later version may know better ones.</summary>
    public void Keep(Retention retention)
    {
        FluidKeepYears = retention.FluidYears == Retention.UsualFluidYears ? null : retention.FluidYears;
        ExposureKeepYears = retention.ExposureYears == Retention.UsualExposureYears ? null : retention.ExposureYears;
    }
}

internal sealed class SiteConfiguration : IEntityTypeConfiguration<Site>
{
    public void Configure(EntityTypeBuilder<Site> builder)
    {
        builder.Property(s => s.Name).HasMaxLength(120);
        builder.Property(s => s.TimeZoneId).HasMaxLength(64);
        builder.Property(s => s.Culture).HasMaxLength(20);
        builder.Property(s => s.Currency).HasMaxLength(3);
        builder.Property(s => s.SafetySheetPlace).HasMaxLength(200);
        builder.Property(s => s.LockMinutes).CameLater();
        builder.Property(s => s.ShiftEnds).HasMaxLength(60).CameLater();
        builder.Property(s => s.FluidKeepYears).CameLater();
        builder.Property(s => s.ExposureKeepYears).CameLater();
    }
}
