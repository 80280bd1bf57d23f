using ShopFluids.Core.Instruments;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.InstrumentCheck;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Basics;

namespace ShopFluids.Web.Pages.Instruments;

/// <summary>An instrument and its checks, as they are shown.</summary>
public sealed class InstrumentView(CheckedInstrument instrument, DeskWords words, bool mayCheck)
{
    public CheckedInstrument Instrument => instrument;

    public DeskWords Words => words;

    public bool MayCheck => mayCheck && instrument.NeedsChecks;

    private ShopFormat Format => words.Format;

    public string Facts => Format.Say(
        Texts.Instrument_Facts,
        InstrumentDraft.KindWord(instrument.Kind),
        InstrumentDraft.Amount(instrument.Resolution, instrument.Kind, Format),
        InstrumentDraft.Amount(instrument.Accuracy, instrument.Kind, Format));

    /// <summary>How things stand, in one sentence.</summary>
    public string Standing =>
        !instrument.NeedsChecks ? Texts.Setup_CheckNone
        : instrument.HoldsUntil is not { } until ? Texts.Instrument_NoneStands
        : Format.Say(instrument.IsLapsed ? Texts.Instrument_LapsedOn : Texts.Instrument_HoldsUntil, Format.LongDay(until));

    public string Lead => Format.Say(
        instrument.Kind == InstrumentKind.PhMeter ? Texts.Instrument_LeadPh : Texts.Instrument_LeadBrix,
        InstrumentDraft.Amount(instrument.Accuracy + (instrument.Resolution / 2), instrument.Kind, Format));

    public string Point(CheckPoint? point, bool isInMillivolts) => point is { } read
        ? Format.Say(Texts.Instrument_Point, Number(read.Standard), $"{Number(read.Shown)} {(isInMillivolts ? "mV" : Unit)}")
        : Texts.Instrument_NoPoint;

    public string Offset(CheckRow check) => check.Offset is { } offset ? $"{Number(offset)} {(check.IsInMillivolts ? "mV" : Unit)}" : "";

    public string Slope(CheckRow check) => check.SlopePercent is { } percent ? $"{Number(percent)} %" : "";

    /// <summary>What a check came to, right after it was noted.</summary>
    public string Outcome(CheckResult result) => Format.Say(result.Passes ? Texts.Instrument_Passed : Texts.Instrument_Failed, instrument.Tag);

    private string Unit => instrument.Kind == InstrumentKind.PhMeter ? "pH" : "Brix";

    private string Number(decimal value) => QuantityInput.Write(value, QuantityKind.Number, Format.Units, Format.Culture);
}
