using ShopFluids.Core.Care;
using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.OverdueTest;

namespace ShopFluids.Web.Pages.Sumps;

/// <summary>Something that happened, in words.</summary>
/// <param name="Verdict">Null where there is none to show.</param>
/// <param name="Struck">What no longer counts, shown struck through before the text.</param>
internal sealed record TimelineEntry(string Key, DateTime AtUtc, Verdict? Verdict, Direction Direction, string Struck, string Text)
{
    /// <summary>The reading, where it still counts.</summary>
    public Guid? StandingReading { get; init; }

    /// <summary>Readings, movements, work and flags of a sump, newest first.</summary>
    public static IReadOnlyList<TimelineEntry> Of(SumpView view)
    {
        var history = view.Page.History;
        return [.. history.Readings.Select(r => Reading(view, r))
            .Concat(history.Movements.Select(m => Movement(view, m)))
            .Concat(history.Tasks.Where(t => t.State != TaskState.Withdrawn || t.IsRedated).Select(t => Work(view, t)))
            .Concat(history.CleanOuts.SelectMany(c => CleanOut(view, c)))
            .Concat(history.Doses.Select(d => Dose(view, d)))
            .Concat(history.Skips.Select(s => Skip(view, s)))
            .Concat(history.Flags.Where(f => f.EndedAtUtc is not null).Select(f => FlagEnded(view, f)))
            .OrderByDescending(e => e.AtUtc)];
    }

    private static TimelineEntry Reading(SumpView view, HistoryReading reading)
    {
        var values = view.Format.Say(Texts.Sump_EntryReading, string.Join(", ", Values(view, reading)));
        return reading.SupersededBy is { } by
            ? new($"r{reading.Id}", reading.TakenAtUtc, null, Direction.None, $"{values}. {reading.By}", view.Format.Say(Texts.Sump_EntrySuperseded, by.Reason, by.By))
            : new($"r{reading.Id}", reading.TakenAtUtc, reading.Verdict, reading.Direction, "", $"{values}. {reading.By}") { StandingReading = reading.Id };
    }

    private static IEnumerable<string> Values(SumpView view, HistoryReading reading)
    {
        foreach (var measured in reading.Measurements)
        {
            var value = view.Words.Sentences.Value(measured.Parameter, (decimal)measured.Value);

            // A percentage and a length speak for themselves; other values need their name.
            yield return measured.Parameter is ParameterCodes.Concentration or ParameterCodes.Level
                ? value
                : $"{view.Words.Sentences.Parameter(measured.Parameter)} {value}";
        }

        if (reading.LateSlide is { } late)
        {
            yield return view.Format.Say(Texts.Sheet_SlideReadLate, view.Format.DayAndTime(late.ReadAtUtc), view.Format.DayAndTime(late.ReadUntilUtc));
        }

        if (reading.Note.Length > 0)
        {
            yield return view.Format.Say(Texts.Sump_EntryNote, reading.Note);
        }
    }

    private static TimelineEntry Movement(SumpView view, HistoryMovement movement)
    {
        var format = view.Format;
        var text = movement.Kind switch
        {
            MovementKind.Fill => format.Say(Texts.Sump_EntryFill, format.Volume((double)movement.WaterLitres), format.Volume((double)movement.ConcentrateLitres)),
            MovementKind.Addition => format.Say(Texts.Sump_EntryAddition, format.Volume((double)movement.WaterLitres), format.Volume((double)movement.ConcentrateLitres)),
            MovementKind.Drain => format.Say(Texts.Sump_EntryDrain, format.Volume((double)movement.RemovedLitres)),
            _ => format.Say(Texts.Sump_EntryRemoval, format.Volume((double)movement.RemovedLitres)),
        };
        if (AdditionDoubtSentences.Unusual(movement.Unusual) is { Length: > 0 } unusual)
        {
            text = $"{text}, {unusual}";
        }

        // What was taken out first has the id of the addition that followed it.
        return new($"m{(int)movement.Kind}{movement.Id}", movement.AtUtc, null, Direction.None, "", movement.Lot is { } lot ? $"{text}, {format.Say(Texts.Sump_EntryLot, lot.Number)}. {movement.By}" : $"{text}. {movement.By}");
    }

    private static TimelineEntry Dose(SumpView view, DoseRow dose)
    {
        var given = view.Format.Say(Texts.Sump_EntryDose, DoseSentences.Given(dose, view.Format), dose.Reason, dose.By);
        return DoseSentences.StruckOut(dose, view.Format, view.Page.AtUtc) is { } why
            ? new($"d{dose.Id}", dose.GivenAtUtc, null, Direction.None, given, why)
            : new($"d{dose.Id}", dose.GivenAtUtc, null, Direction.None, "", given);
    }

    private static TimelineEntry Skip(SumpView view, HistorySkip skip) =>
        new($"s{skip.Id}", skip.AtUtc, null, Direction.None, "", view.Format.Say(Texts.Sump_EntryNotRead, SkipSentences.Why(skip.Reason, skip.Words), skip.By));

    private static TimelineEntry Work(SumpView view, HistoryTask task)
    {
        // Not with its recipe: what was poured may differ, and stands in the entry of the addition.
        var what = view.Words.Sentences.Task(task.Kind, task.Cause, null);
        return new($"t{task.Id}", task.EndedAtUtc, null, Direction.None, task.IsOfStruckDose ? view.Format.Say(Texts.Sump_EntryDone, what, task.By) : "", task switch
        {
            { IsOfStruckDose: true } => Texts.Sump_EntryDoseStruck,
            { State: TaskState.Done, Found: { } found } => view.Format.Say(Texts.Sump_EntryDoneFound, what, view.Words.Sentences.Found(found), task.By),
            { State: TaskState.Done } => view.Format.Say(Texts.Sump_EntryDone, what, task.By),
            { IsRedated: true, RedatedToUtc: { } to } => view.Format.Say(Texts.Sump_EntryRedatedTo, what, DayOf(view, task.DueAtUtc), DayOf(view, to), task.Reason, task.By),
            { IsRedated: true } => view.Format.Say(Texts.Sump_EntryRedated, what, DayOf(view, task.DueAtUtc), task.Reason, task.By),
            _ => view.Format.Say(Texts.Sump_EntrySkipped, what, task.Reason, task.By),
        });
    }

    private static string DayOf(SumpView view, DateTime dueAtUtc) => view.Format.LongDay(view.Format.Calendar.ShopDayOf(dueAtUtc.AddTicks(-1)));

    // One entry for its end, and while it is going on one for its last step: the steps themselves are on its page and on the history sheet.
    private static IEnumerable<TimelineEntry> CleanOut(SumpView view, HistoryCleanOut cleanOut)
    {
        var say = view.Words.Sentences;
        if (cleanOut.EndedAtUtc is { } ended)
        {
            var seen = cleanOut.Steps.FirstOrDefault(s => s.Kind == CleanOutStepKind.Inspect)?.Noted.Text;
            var by = string.Join(", ", cleanOut.Steps.Select(s => s.By).Append(cleanOut.EndedBy).Where(n => n.Length > 0).Distinct(StringComparer.Ordinal));
            yield return new($"c{cleanOut.Id}", ended, null, Direction.None, "", $"{say.End(cleanOut)} {(string.IsNullOrEmpty(seen) ? "" : view.Format.Say(Texts.Sump_EntryInspected, seen))} {by}".Replace("  ", " ", StringComparison.Ordinal));
        }
        else if (cleanOut.Steps.Count > 0)
        {
            var last = cleanOut.Steps[^1];
            yield return new($"c{cleanOut.Id}", last.DoneAtUtc, null, Direction.None, "", view.Format.Say(Texts.Sump_EntryCleanOutOpen, CleanOutSentences.Step(last.Kind), last.By));
        }
    }

    private static TimelineEntry FlagEnded(SumpView view, HistoryFlag flag)
    {
        var what = view.Words.Sentences.Flag(flag.Rule, flag.Parameter, flag.Severity, flag.Direction, flag.Numbers);
        return new($"f{flag.Id}", flag.EndedAtUtc ?? flag.RaisedAtUtc, null, Direction.None, "", flag.EndedHow switch
        {
            FlagEnd.Closed => view.Format.Say(Texts.Sump_EntryFlagClosed, what, flag.EndReason, flag.EndedBy),
            FlagEnd.ChargeEnded => view.Format.Say(Texts.Sump_EntryFlagCharge, what),
            FlagEnd.Rejudged => view.Format.Say(Texts.Sump_EntryFlagRejudged, what, flag.EndReason, flag.EndedBy),
            FlagEnd.Superseded => view.Format.Say(Texts.Sump_EntryFlagSuperseded, what),
            FlagEnd.Cleared when flag.ReplacedBy is { } by => view.Format.Say(
                Texts.Sump_EntryFlagReplaced, what, Sentences.Verdict(by.Severity, by.Direction), view.Words.Sentences.Flag(flag.Rule, flag.Parameter, by.Severity, by.Direction, by.Numbers)),
            _ => view.Format.Say(flag.Rule == OverdueTestRule.Code ? Texts.Sump_EntryFlagNoLongerLate : Texts.Sump_EntryFlagCleared, what),
        });
    }
}
