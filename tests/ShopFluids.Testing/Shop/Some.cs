using ShopFluids.Core.Charges;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Testing.Shop;

/// <summary>Commands of a small shop, good as they stand; a test names only what it is about.</summary>
public static class Some
{
    /// <summary>Monday 2 March 2026, 08:00 in Berlin: the clock of every test begins here.</summary>
    public static readonly DateTime Start = new(2026, 3, 2, 7, 0, 0, DateTimeKind.Utc);

    public const string SumpTag = "S-07";

    public static readonly Actor Operator = new(new Guid("01900000-0000-7000-8000-0000000000a1"), "Op");

    public static readonly Actor Supervisor = new(new Guid("01900000-0000-7000-8000-0000000000a2"), "Sup");

    public static Guid Id() => Guid.CreateVersion7(new DateTimeOffset(Start));

    /// <summary>A reading in range: 8.0 % by refractometer (8.0 Brix, factor 1.0), pH 9.0, level 300 mm.</summary>
    public static RecordReading Reading(
        decimal? brix = 8.0m,
        decimal? ph = 9.0m,
        decimal? levelMm = 300,
        DateTime? takenAt = null,
        string sump = SumpTag,
        string note = "",
        Guid? id = null,
        Guid? supersedes = null,
        string? reason = null) =>
        new(id ?? Id(), sump, takenAt ?? Start, note, [.. Values(brix, ph, levelMm)], supersedes, reason);

    /// <summary>A reading of exactly these values.</summary>
    public static RecordReading ReadingOf(params TypedMeasurement[] measurements) => new(Id(), SumpTag, Start, "", measurements);

    public static TypedMeasurement Typed(string parameter, decimal value, string? unit = null, string? method = null, decimal? temperature = null, string? instrument = null) =>
        new(parameter, method, value, unit, temperature, instrument);

    public static SaveSite Site(string culture = "en-GB", UnitSystem units = UnitSystem.Metric, string timeZone = "Europe/Berlin", int closedWeekdays = 65) =>
        new(Id(), "Hall 3", timeZone, culture, units, "EUR", 6, closedWeekdays, 0.1m, "Binder at the stores");

    public static AddFluid Fluid(Guid id, string name = "Emulsion A", decimal factor = 1.0m, decimal? titration = 0.5m, decimal low = 7, decimal high = 9, decimal target = 8) =>
        new(id, new FluidData(name, FluidKind.SemiSynthetic, factor, titration, target, 1, 15, 365, "120109", null, null), low, high);

    public static ReceiveLot Lot(Guid id, Guid fluidId, string number = "L-1", decimal litres = 200, DateOnly? expires = null) =>
        new(id, fluidId, number, new DateOnly(2026, 2, 1), expires ?? new DateOnly(2027, 2, 1), litres, 6.5m);

    /// <summary>1,000 by 500 by 400 mm to the brim: half a litre for each millimetre, 200 L at the brim; intake at 60, full mark at 340.</summary>
    public static AddSump Sump(Guid id, Guid areaId, string tag = SumpTag, string machineTag = "M-07", Guid? waterId = null, int walkOrder = 7, SumpShape? shape = null) =>
        new(id, areaId, tag, shape ?? new(GeometryKind.Rectangular, 1000, 500, 400, 0, []), 340, 60, walkOrder, waterId,
            [new NewMachine(Id(), machineTag, "Turning centre", "turning", 80, Delivery.Flood)]);

    /// <summary>A fill long enough ago that readings at <see cref="Start"/> are not the charge's first minute.</summary>
    public static FillSump Fill(Guid chargeId, Guid fluidId, Guid? lotId, string tag = SumpTag, DateTime? at = null, decimal water = 138, decimal concentrate = 12) =>
        new(chargeId, tag, fluidId, at ?? Start.AddDays(-10), water, concentrate, lotId);

    public static AddCareStep Step(
        TaskKind kind, string tag = SumpTag, IntervalBasis basis = IntervalBasis.CalendarAnchored, int days = 7, DateOnly? anchor = null,
        ClosedDayPolicy closedDays = ClosedDayPolicy.AsIs, IReadOnlyList<string>? parameters = null) =>
        new(Id(), tag, kind, basis, days, anchor ?? new DateOnly(2026, 3, 2), closedDays,
            parameters ?? (kind == TaskKind.Test ? [ParameterCodes.Concentration, ParameterCodes.Ph] : []), 10);

    public static AddInstrument Refractometer(string tag = "R-1", bool compensates = true) =>
        new(Id(), tag, InstrumentKind.Refractometer, 0.1m, 0.2m, compensates, new DateOnly(2026, 2, 20));

    public static AddInstrument PhMeter(string tag = "PH-1") => new(Id(), tag, InstrumentKind.PhMeter, 0.01m, 0.05m, true, new DateOnly(2026, 2, 20));

    public static AddWaterSource Water(Guid id, decimal zeroBrix = 0) => new(id, new("Mains", zeroBrix, 150, 10, 0));

    public static RecordAddition Addition(
        Guid? lotId, decimal water = 10, decimal concentrate = 1, decimal removed = 0, DateTime? at = null, string tag = SumpTag, Guid? id = null, Guid? readingId = null, string? overrideReason = null) =>
        new(id ?? Id(), tag, at ?? Start, water, concentrate, removed, lotId, readingId, overrideReason);

    /// <summary>180 mL of a biocide in 150 L: 1.2 mL/L, where its label allows 1.5, every 96 hours, with 4 hours until re-entry.</summary>
    public static NoteDose Dose() => new(Id(), SumpTag, Start, "Biocide B-20", DoseKind.Biocide, 180, DoseUnit.Millilitre, 150, "Smell on Monday")
    {
        LabelMost = 1.5m,
        LabelHours = 96,
        ReentryHours = 4,
        IsSafetyConfirmed = true,
    };

    private static IEnumerable<TypedMeasurement> Values(decimal? brix, decimal? ph, decimal? levelMm)
    {
        if (brix is { } b)
        {
            yield return Typed(ParameterCodes.Concentration, b);
        }

        if (ph is { } p)
        {
            yield return Typed(ParameterCodes.Ph, p);
        }

        if (levelMm is { } l)
        {
            yield return Typed(ParameterCodes.Level, l);
        }
    }
}
