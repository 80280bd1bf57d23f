using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Machines;

namespace ShopFluids.Web.Pages.Sumps;

/// <summary>A sump as it was read, with the words of the person who looks at it.</summary>
public sealed record SumpView(Core.Sumps.SumpPage Page, DeskWords Words)
{
    public ShopFormat Format => Words.Format;

    public HistorySheetTrends Trends { get; } = Page.Trends(Words.Sentences);

    /// <summary>M-07 turning centre, North bay. Flood and through-tool, 62 h a week.</summary>
    public string Place
    {
        get
        {
            if (Page.Machines.Count != 1)
            {
                return Page.Machines.Count == 0
                    ? Texts.Board_NoMachine
                    : Format.Say(Texts.Sump_CentralFor, string.Join(", ", Page.Machines.Select(m => m.Tag)));
            }

            var machine = Page.Machines[0];
            var delivery = string.Join(", ", DeliveryWords.All(machine.Delivery));
            var hours = Format.Say(Texts.Sump_HoursAWeek, Format.Number(machine.WeeklyHours, 0));
            return delivery.Length == 0 ? hours : $"{delivery}; {hours}";
        }
    }

    /// <summary>Semi-synthetic 60, charge 14 of this sump, filled 31 Aug from lot 2608-B. Limits version 3.</summary>
    public string ChargeLine
    {
        get
        {
            if (Page.Charge is not { } charge)
            {
                return Texts.Board_StandsEmpty;
            }

            var filled = charge.FillLot is { } lot
                ? Format.Say(Texts.Sump_ChargeFromLot, charge.FluidName, Format.Count(charge.Number), Format.ShortDay(charge.FilledAtUtc), lot)
                : Format.Say(Texts.Sump_ChargeFilled, charge.FluidName, Format.Count(charge.Number), Format.ShortDay(charge.FilledAtUtc));
            var limits = (charge.OwnLimits, charge.FluidLimits) switch
            {
                ({ } own, _) => Format.Say(Texts.Sump_OwnLimits, Format.Count(own)),
                (null, { } number) => Format.Say(Texts.Sump_FluidLimits, Format.Count(number)),
                _ => Texts.Sump_NoLimits,
            };
            return $"{filled} {limits}";
        }
    }

    /// <summary>What somebody wrote with the last reading that counts of this charge; null where nobody did. It often says why a flag is there.</summary>
    public string? LastNote => Page.Charge is not null && Page.History.Readings.Where(r => r.SupersededBy is null).MaxBy(r => r.TakenAtUtc) is { Note.Length: > 0 } last
        ? Format.Say(Texts.Sump_LastNote, Format.When(last.TakenAtUtc, Page.AtUtc), last.By, last.Note)
        : null;

    /// <summary>Keep away until 12:00: Biocide B-20. Null when no dose asks for it now.</summary>
    public string? KeepAway => Page.KeepAway is { } keepAway ? DoseSentences.Keep(keepAway, Format) : null;

    /// <summary>14:26 of today, then 19 Nov.</summary>
    public string When(DateTime instantUtc) =>
        Format.Ago(instantUtc, Page.AtUtc) == Texts.Time_Today ? Format.Time(instantUtc) : Format.ShortDay(instantUtc);
}
