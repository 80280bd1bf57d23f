using ShopFluids.Core.Instruments;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.InstrumentCheck;

namespace ShopFluids.Core.Sheets.InstrumentChecks;

internal sealed class InstrumentSheetMaker(ShopSetup setup, ShopFormat format, DateTime nowUtc)
{
    private readonly DateOnly _today = setup.Calendar.ShopDayOf(nowUtc);

    public InstrumentSheet Make(SheetFrame frame, InstrumentFactsRead facts)
    {
        var byId = facts.Instruments.ToDictionary(i => i.Id);
        return new(
            frame,
            format.Count(facts.Instruments.Count),
            format.Count(facts.Instruments.Count(i => i.IsLapsedOn(_today))),
            [.. facts.Instruments.Select(Row)],
            [.. facts.Checks.Where(c => byId.ContainsKey(c.Check.InstrumentId)).Select(c => Row(c, byId[c.Check.InstrumentId]))],
            [.. facts.Lapses.Select(l => new InstrumentSheetLapse(
                byId.GetValueOrDefault(l.InstrumentId)?.Tag ?? "",
                format.Moment(l.FromUtc, nowUtc),
                l.UntilUtc is { } until ? format.Moment(until, nowUtc) : Texts.InstrumentSheet_StillLapsed,
                format.Count(l.Values),
                l.Answer))]);
    }

    private InstrumentSheetCheck Row(CheckMade made, Instrument instrument)
    {
        var check = CheckRow.Of(made.Check, made.By);
        var points = new[] { check.First, check.Second }.OfType<CheckPoint>().Select(p => InstrumentSentences.Point(p, check, instrument.Kind, format));
        return new(
            instrument.Tag,
            format.LongDay(check.CheckedOn),
            check.Passes ? new(Verdict.InRange, Direction.None, Texts.Instrument_Pass) : new(Verdict.Action, Direction.None, Texts.Instrument_Fail),
            string.Join("; ", points),
            InstrumentSentences.Offset(check, instrument.Kind, format),
            InstrumentSentences.Slope(check, format),
            check.Person);
    }

    private InstrumentSheetRow Row(Instrument instrument) => new(
        instrument.Tag,
        InstrumentSentences.Kind(instrument.Kind),
        InstrumentSentences.Amount(instrument.Resolution, instrument.Kind, format),
        InstrumentSentences.Amount(instrument.Accuracy, instrument.Kind, format),
        InstrumentSentences.CheckHolds(instrument, format),
        instrument.CheckedOn is { } day ? format.LongDay(day) : instrument.NeedsChecks ? Texts.InstrumentSheet_Never : "",
        instrument.HoldsUntil is { } until ? format.LongDay(until) : "",
        Standing(instrument));

    private SheetVerdict Standing(Instrument instrument) => instrument switch
    {
        { OutOfUseSince: not null } => new(Verdict.NotMeasured, Direction.None, Texts.Setup_OutOfUse),
        { NeedsChecks: false } => new(Verdict.NotMeasured, Direction.None, Texts.Setup_CheckNone),
        { HoldsUntil: null } => new(Verdict.NotMeasured, Direction.None, Texts.InstrumentSheet_Never, IsLate: true),
        { HoldsUntil: { } until } when until < _today => new(
            Verdict.NotMeasured,
            Direction.None,
            format.Late(setup.Calendar.EndOf(until), nowUtc) ?? Texts.Verdict_Overdue,
            IsLate: true),
        _ => new(Verdict.InRange, Direction.None, Texts.InstrumentSheet_Holds),
    };
}
