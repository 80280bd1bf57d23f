using ShopFluids.Core.Instruments;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Web.Shop.Entry;

/// <summary>Which instrument and which unit stand ready in the form.</summary>
internal static class EntryKit
{
    public static bool IsRefractometer(EntryInstrument instrument) => instrument.Kind == InstrumentKind.Refractometer;

    public static bool IsForPh(EntryInstrument instrument) => instrument.Kind is InstrumentKind.PhMeter or InstrumentKind.PhStrips;

    /// <summary>
    /// The one used last at this sump, or the only one there is; empty when that is for the person to say. Where its check has lapsed, the only
    /// one whose check holds stands ready in its place.
    /// </summary>
    public static string Usual(EntryPage page, Func<EntryInstrument, bool> isOfKind)
    {
        var fitting = page.Instruments.Where(isOfKind).ToList();
        var (used, holding) = (fitting.Find(i => i.IsInUse), fitting.FindAll(i => !i.IsLapsed));
        return used is null or { IsLapsed: true } && holding.Count == 1 ? holding[0].Tag
            : used?.Tag ?? (fitting.Count == 1 ? fitting[0].Tag : "");
    }

    /// <summary>The way a value was typed; untouched, the usual one in the person's units.</summary>
    public static EntryWay WayOf(EntryField field, TypedField typed, UnitSystem units) =>
        field.Ways.FirstOrDefault(w => w.Key == typed.Way) ?? Usual(field, units);

    public static EntryWay Usual(EntryField field, UnitSystem units) =>
        (units == UnitSystem.UsCustomary ? field.Ways.FirstOrDefault(w => w.Unit is "in" or "°F" or "gpg") : null) ?? field.Ways[0];

    /// <summary>The instrument's tag for a field, where one is named.</summary>
    public static string? InstrumentFor(EntryForm form, EntryField field, EntryWay way)
    {
        var tag = way.Method == MeasuringMethod.Refractometer ? form.Refractometer : field.Parameter == ParameterCodes.Ph ? form.PhMeter : "";
        return tag.Length == 0 ? null : tag;
    }

    /// <summary>The refractometer in hand compensates: its box for the temperature is out of sight, and what may stand in it counts for nothing.</summary>
    public static bool IsCompensated(EntryPage page, EntryForm form) =>
        page.Instruments.Any(i => IsRefractometer(i) && i.CompensatesTemperature && i.Tag == form.Refractometer);

    /// <summary>Only a refractometer without compensation needs to know how warm the sample is; the page hides the box while another is chosen.</summary>
    public static bool AsksTemperature(EntryPage page, EntryField field) =>
        field.Ways.Any(w => w.Method == MeasuringMethod.Refractometer) && page.Instruments.Any(i => IsRefractometer(i) && !i.CompensatesTemperature);
}
