using ShopFluids.Core.Care;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Limits;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.OverdueTest;

namespace ShopFluids.Core.Sheets;

/// <summary>The tables of what happened in the period.</summary>
internal sealed class HistorySheetTables(ShopSetup setup, Sump sump, Sentences say, DateTime nowUtc)
{
    private ShopFormat Format => say.Format;

    public HistorySheetReadings Readings(IReadOnlyList<HistoryReading> readings)
    {
        var columns = ReadingColumns(readings);
        return new(
            [.. columns.Select(c => new HistorySheetColumn(c.Heading, c.IsNumber, c.IsMain))],
            [.. readings.Select(r => new HistorySheetReading(
                Moment(r.TakenAtUtc),
                r.By,
                [.. columns.Select(c => c.Cell(r) ?? new HistorySheetCell(""))],
                SheetWords.Worded(r.Verdict, r.Direction),
                string.Join(". ", new[] { r.LateSlide is { } late ? Format.Say(Texts.Sheet_SlideReadLate, Moment(late.ReadAtUtc), Moment(late.ReadUntilUtc)) : "", r.Note }.Where(text => text.Length > 0)),
                r.SupersededBy is { } by ? Format.Say(Texts.Sheet_SupersededBy, Moment(by.AtUtc), by.By, by.Reason) : null))]);
    }

    public List<HistorySheetMovement> Movements(IReadOnlyList<HistoryMovement> movements, IReadOnlyList<DoseRow> doses) =>
        [.. movements.Select(m => (m.AtUtc, Row: Row(m))).Concat(doses.Select(d => (AtUtc: d.GivenAtUtc, Row: Row(d)))).OrderByDescending(m => m.AtUtc).Select(m => m.Row)];

    public List<HistorySheetLot> Lots(IReadOnlyList<HistoryMovement> movements) =>
        [.. movements.Where(m => m.Lot is not null).GroupBy(m => m.Lot?.Id ?? Guid.Empty)
            .Select(g => (Lot: g.First().Lot, Drawn: g.Sum(m => m.ConcentrateLitres)))
            .OrderByDescending(l => l.Lot?.ReceivedOn).ThenBy(l => l.Lot?.Number, StringComparer.Ordinal)
            .SelectMany(l => l.Lot is { } lot ? new[] { new HistorySheetLot(lot.Number, lot.FluidName, Format.LongDay(lot.ReceivedOn), Format.LongDay(lot.ExpiresOn), Format.VolumeNumber((double)l.Drawn)) } : [])];

    public List<HistorySheetFlag> Flags(IReadOnlyList<HistoryFlag> flags) =>
        [.. flags.Select(f => new HistorySheetFlag(
            Moment(f.RaisedAtUtc),
            say.Worded(f.Parameter, f.Severity, f.Direction),
            say.Flag(f.Rule, f.Parameter, f.Severity, f.Direction, f.Numbers),
            f.EndedAtUtc is not { } ended ? Texts.Sheet_FlagOpen : f.EndedHow switch
            {
                FlagEnd.Cleared when f.ReplacedBy is { } by => Format.Say(Texts.Sheet_FlagReplaced, Moment(ended), Sentences.Verdict(by.Severity, by.Direction)),
                FlagEnd.Cleared => Format.Say(f.Rule == OverdueTestRule.Code ? Texts.Sheet_FlagNoLongerLate : Texts.Sheet_FlagCleared, Moment(ended)),
                FlagEnd.Closed => Format.Say(Texts.Sheet_FlagClosed, Moment(ended), f.EndedBy, f.EndReason),
                FlagEnd.Rejudged => Format.Say(Texts.Sheet_FlagRejudged, Moment(ended), f.EndReason),
                FlagEnd.ChargeEnded => Format.Say(Texts.Sheet_FlagChargeEnded, Moment(ended)),
                _ => Format.Say(Texts.Sheet_FlagSuperseded, Moment(ended)),
            }))];

    public List<HistorySheetTask> Tasks(IReadOnlyList<HistoryTask> tasks) =>
        [.. tasks.Select(t => new HistorySheetTask(
            Format.ShortDay(setup.Calendar.ShopDayOf(t.DueAtUtc.AddTicks(-1))),
            t.State switch
            {
                TaskState.Done when t.IsOfStruckDose => Texts.Sheet_TaskDoseStruck,
                TaskState.Done => Moment(t.EndedAtUtc),
                TaskState.Skipped => Texts.Sheet_TaskSkipped,
                _ when t.RedatedToUtc is { } to => Format.Say(Texts.Sheet_TaskRedatedTo, Format.ShortDay(setup.Calendar.ShopDayOf(to.AddTicks(-1)))),
                _ => t.IsRedated ? Texts.Sheet_TaskRedated : Texts.Sheet_TaskWithdrawn,
            },
            string.Join(": ", new[] { say.Task(t.Kind, t.Cause, null), t.Found is { } found ? say.Found(found) : t.Reason }.Where(text => text.Length > 0)),
            t.By))];

    /// <summary>What is still to be done, the earliest due first: whoever reads of an open flag finds here what was asked for.</summary>
    public List<HistorySheetTask> OpenTasks(IReadOnlyList<OpenTask> tasks) =>
        [.. tasks.OrderBy(t => t.DueAt).ThenBy(t => t.Kind).ThenBy(t => t.Cause, StringComparer.Ordinal).Select(t => new HistorySheetTask(
            Format.ShortDay(setup.Calendar.ShopDayOf(t.DueAt.AddTicks(-1))),
            Format.Late(t.DueAt, nowUtc) is { } late ? Format.Say(Texts.Sheet_TaskOpenLate, late) : Texts.Sheet_TaskOpen,
            say.Task(t.Kind, t.Cause, null),
            ""))];

    /// <summary>In the order in which they were done, each clean-out with its end.</summary>
    public List<HistorySheetCleanOutStep> CleanOuts(IReadOnlyList<HistoryCleanOut> cleanOuts) =>
        [.. cleanOuts.SelectMany(c => c.Steps
            .Select(s => new HistorySheetCleanOutStep(Moment(s.DoneAtUtc), CleanOutSentences.Step(s.Kind), say.Noted(s.Noted), s.By))
            .Concat(c.EndedAtUtc is { } ended ? [new(Moment(ended), Texts.Sheet_CleanOutEnd, say.End(c), c.EndedBy)] : []))];

    /// <summary>One column for each parameter that was measured; the scale beside its concentration, the volume beside its level.</summary>
    private List<ReadingColumn> ReadingColumns(IReadOnlyList<HistoryReading> readings)
    {
        var measured = readings.SelectMany(r => r.Measurements).Select(m => (m.Parameter, m.Method)).ToHashSet();
        var columns = new List<ReadingColumn>();
        foreach (var parameter in setup.Parameters.Where(p => measured.Any(m => m.Parameter == p.Code)))
        {
            var isMain = parameter.Code is ParameterCodes.Concentration or ParameterCodes.Ph;
            if (measured.Contains((parameter.Code, MethodCodes.Refractometer)))
            {
                columns.Add(new(Texts.Sheet_Scale, true, false, r => Of(r, parameter.Code, MethodCodes.Refractometer) is { } m ? new(Format.Number(m.RawValue, 1)) : null));
            }

            // Titration decides where both were used, and is named where it was.
            columns.Add(new(say.ColumnHeading(parameter), say.Words(parameter.Code).Count == 0, isMain, r => Value(r, parameter)));
            if (parameter.Code == ParameterCodes.Level)
            {
                columns.Add(new(Format.Say(Texts.Sheet_VolumeColumn, Format.VolumeUnit), true, false, Volume));
            }
        }

        return columns;
    }

    private static HistoryMeasurement? Of(HistoryReading reading, string parameter, string method) =>
        reading.Measurements.FirstOrDefault(m => m.Parameter == parameter && m.Method == method);

    private HistorySheetCell? Value(HistoryReading reading, Parameter parameter)
    {
        var all = reading.Measurements.Where(m => m.Parameter == parameter.Code).ToList();
        if (all.Count == 0)
        {
            return null;
        }

        var text = string.Join(" / ", all.Select(m => say.Cell(parameter, m.Value)));
        return new(text, all[0].Verdict, all[0].Direction);
    }

    private HistorySheetCell? Volume(HistoryReading reading)
    {
        var geometry = sump.Geometry;
        return reading.Measurements.FirstOrDefault(m => m.Parameter == ParameterCodes.Level) is { } level
            ? new(Format.VolumeNumber(geometry.VolumeLitresAt(Math.Clamp(level.Value, 0, geometry.BrimMm))))
            : null;
    }

    private HistorySheetMovement Row(HistoryMovement movement) => new(
        Moment(movement.AtUtc),
        movement.Kind switch
        {
            MovementKind.Fill => Texts.Sheet_MovedFill,
            MovementKind.Addition => Texts.Sheet_MovedTopUp,
            MovementKind.Removal => Texts.Sheet_MovedRemoval,
            _ => Texts.Sheet_MovedDrain,
        },
        Litres(movement.WaterLitres),
        Litres(movement.ConcentrateLitres),
        Litres(movement.RemovedLitres),
        movement.Lot?.Number ?? "",
        movement.By,
        string.Join("; ", new[] { movement.Reason, AdditionDoubtSentences.Unusual(movement.Unusual) }.Where(r => r.Length > 0)));

    // Its mL are no litres of the sump: it says itself what it is.
    private HistorySheetMovement Row(DoseRow dose) => new(
        Moment(dose.GivenAtUtc), Texts.Sheet_MovedDose, "", "", "", "", dose.By, $"{DoseSentences.Given(dose, Format)} {dose.Reason}", DoseSentences.StruckOut(dose, Format, nowUtc));

    private string Litres(decimal litres) => litres == 0 ? "" : Format.VolumeNumber((double)litres);

    private string Moment(DateTime instantUtc) => Format.Moment(instantUtc, nowUtc);

    private sealed record ReadingColumn(string Heading, bool IsNumber, bool IsMain, Func<HistoryReading, HistorySheetCell?> Cell);
}
