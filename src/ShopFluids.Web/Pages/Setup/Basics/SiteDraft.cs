using System.Globalization;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Record;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Pages.Setup.Fields;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Basics;

/// <summary>The site as it is being typed.</summary>
public sealed class SiteDraft
{
    public string Name { get; set; } = "";

    public string TimeZone { get; set; } = "Etc/UTC";

    public string Culture { get; set; } = "en-GB";

    public string Units { get; set; } = nameof(UnitSystem.Metric);

    public string Currency { get; set; } = "EUR";

    public NumberBox DayStart { get; } = new();

    public NumberBox LockMinutes { get; } = new();

    public string ShiftEnds { get; set; } = "";

    public NumberBox FluidKeepYears { get; } = new();

    public NumberBox ExposureKeepYears { get; } = new();

    public NumberBox Measurable { get; } = new(QuantityKind.Volume);

    public IReadOnlySet<string> Closed { get; set; } = new HashSet<string>(StringComparer.Ordinal);

    public string SafetySheetPlace { get; set; } = "";

    /// <summary>Bits, Sunday = 1 to Saturday = 64.</summary>
    public int ClosedWeekdays => Closed.Aggregate(0, (bits, day) => bits | (1 << int.Parse(day, CultureInfo.InvariantCulture)));

    /// <summary>Every field, in the order of the form.</summary>
    public IReadOnlyList<DraftLine> Lines(ShopFormat format) =>
    [
        new(Texts.FieldName_Name, Name),
        new(Texts.FieldName_SafetySheetPlace, SafetySheetPlace),
        new(Texts.FieldName_Currency, Currency),
        new(Texts.FieldName_Measurable, Measurable.Text),
        new(Texts.FieldName_Culture, Culture),
        new(Texts.Setup_Units, AccountChoices.Units.FirstOrDefault(u => u.Value == Units)?.Text ?? Units),
        new(Texts.FieldName_TimeZone, TimeZone),
        new(Texts.FieldName_DayStart, DayStart.Text),
        new(Texts.FieldName_ShiftEnds, ShiftEnds),
        new(Texts.FieldName_LockMinutes, LockMinutes.Text),
        new(Texts.FieldName_FluidKeepYears, FluidKeepYears.Text),
        new(Texts.FieldName_ExposureKeepYears, ExposureKeepYears.Text),
        new(Texts.FieldName_ClosedWeekdays, string.Join(", ", Weekdays(format).Where(d => Closed.Contains(d.Value)).Select(d => d.Text))),
    ];

    public static SiteDraft Of(Site? site, ShopFormat format)
    {
        var draft = new SiteDraft();
        draft.DayStart.Show(site?.DayStartHour ?? 6, format);
        draft.LockMinutes.Show(site?.LockMinutes ?? Site.UsualLockMinutes, format);
        var retention = Retention.Of(site);
        draft.FluidKeepYears.Show(retention.FluidYears, format);
        draft.ExposureKeepYears.Show(retention.ExposureYears, format);
        draft.Measurable.Show(site?.MeasurableLitres ?? 0.1m, format);
        draft.Closed = DaysOf(site?.ClosedWeekdays ?? 65);
        if (site is not null)
        {
            draft.Name = site.Name;
            draft.TimeZone = site.TimeZoneId;
            draft.Culture = site.Culture;
            draft.Units = site.Units.ToString();
            draft.Currency = site.Currency;
            draft.SafetySheetPlace = site.SafetySheetPlace ?? "";
            draft.ShiftEnds = (site.ShiftEnds ?? "").Replace(" ", ", ", StringComparison.Ordinal);
        }

        return draft;
    }

    /// <summary>Weekdays in the order of the shop's culture.</summary>
    public static IReadOnlyList<Choice> Weekdays(ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        var first = (int)format.Culture.DateTimeFormat.FirstDayOfWeek;
        return [.. Enumerable.Range(first, 7).Select(d => d % 7).Select(d => new Choice(d.ToString(CultureInfo.InvariantCulture), format.Culture.DateTimeFormat.GetDayName((DayOfWeek)d)))];
    }

    /// <summary>What is kept is offered too, even where the list does not know it.</summary>
    public static IReadOnlyList<Choice> WithOwn(IReadOnlyList<Choice> choices, string own)
    {
        ArgumentNullException.ThrowIfNull(choices);
        return choices.Any(c => c.Value == own) ? choices : [.. choices, new Choice(own, own)];
    }

    private static HashSet<string> DaysOf(int bits) =>
        [.. Enumerable.Range(0, 7).Where(d => (bits & (1 << d)) != 0).Select(d => d.ToString(CultureInfo.InvariantCulture))];
}
