using ShopFluids.Core.Board;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Stores;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Board;
using ShopFluids.Web.Pages.Stores;

namespace ShopFluids.Web.Pages.Machines;

/// <summary>A machine as it is shown.</summary>
public sealed class MachineView(MachineNow page, DeskWords words)
{
    public MachineNow Page => page;

    public DeskWords Words => words;

    public UseView Use { get; } = new(page.Months, words);

    private ShopFormat Format => words.Format;

    public string Line => Format.Say(
        Texts.Machine_Line,
        page.Machine.Process,
        Format.Number(page.Machine.WeeklyHours, 0),
        DeliveryWords.Of(page.Machine.Delivery));

    public string FluidOf(BoardRow row) => page.Setup.OpenCharge(row.SumpId) is { } charge ? page.Setup.Fluid(charge.FluidId).Name : Texts.Board_StandsEmpty;

    public string Read(BoardRow row) => row.LastReadAtUtc is { } read ? Format.When(read, page.AtUtc) : Texts.Board_NoneYet;

    public string Work(BoardRow row) => row.Tasks.Count == 0
        ? Texts.Board_NothingPlanned
        : string.Join("; ", row.Tasks.Take(3).Select(t => $"{TaskWord.Of(t.Kind)}, {Format.Due(t.DueAtUtc, page.AtUtc)}"));

    public string Why(BoardRow row) => row.Flags.Count == 0 ? Texts.Machine_NoFlags : string.Join(' ', row.Flags.Take(2).Select(f => words.Sentences.FlagNow(f)));

    public string Serves(BoardRow row) => row.Machines.Count > 1 ? Format.Say(Texts.Machine_AlsoServes, string.Join(", ", row.Machines.Where(m => m.Tag != page.Machine.Tag).Select(m => m.Tag))) : "";

    public string Stretch(SumpLots charge) => charge.DrainedAtUtc is { } drained
        ? Format.Say(Texts.Time_FromTo, Format.LongDay(charge.FilledAtUtc), Format.LongDay(drained))
        : Format.Say(Texts.Stores_SinceStillIn, Format.LongDay(charge.FilledAtUtc));

    public string Lot(TracedLot lot) => Format.Say(Texts.Stores_OtherLot, lot.Number, lot.FluidName, Format.Volume((double)lot.Litres));
}
