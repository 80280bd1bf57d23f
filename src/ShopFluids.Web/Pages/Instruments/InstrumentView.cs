using ShopFluids.Core.Instruments;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.InstrumentCheck;
using ShopFluids.Web.Components.Layout;

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
        InstrumentSentences.Kind(instrument.Kind),
        InstrumentSentences.Amount(instrument.Resolution, instrument.Kind, Format),
        InstrumentSentences.Amount(instrument.Accuracy, instrument.Kind, Format));

    /// <summary>How things stand, in one sentence.</summary>
    public string Standing =>
        !instrument.NeedsChecks ? Texts.Setup_CheckNone
        : instrument.HoldsUntil is not { } until ? Texts.Instrument_NoneStands
        : Format.Say(instrument.IsLapsed ? Texts.Instrument_LapsedOn : Texts.Instrument_HoldsUntil, Format.LongDay(until));

    public string Lead => Format.Say(
        instrument.Kind == InstrumentKind.PhMeter ? Texts.Instrument_LeadPh : Texts.Instrument_LeadBrix,
        InstrumentSentences.Amount(instrument.Accuracy + (instrument.Resolution / 2), instrument.Kind, Format));

    public string Point(CheckPoint? point, CheckRow check) => point is { } read ? InstrumentSentences.Point(read, check, instrument.Kind, Format) : Texts.Instrument_NoPoint;

    public string Offset(CheckRow check) => InstrumentSentences.Offset(check, instrument.Kind, Format);

    public string Slope(CheckRow check) => InstrumentSentences.Slope(check, Format);

    /// <summary>What a check came to, right after it was noted.</summary>
    public string Outcome(CheckResult result) => Format.Say(result.Passes ? Texts.Instrument_Passed : Texts.Instrument_Failed, instrument.Tag);
}
