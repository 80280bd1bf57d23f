using System.Globalization;
using System.Text.Json;
using ShopFluids.Calculations.Mixing;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Limits;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record.Trail;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;
using ShopFluids.Rules.Shutdowns;

namespace ShopFluids.Web.Pages.Record;

/// <summary>What the record keeps as codes and documents, in words: a recipe, what was found, why a task exists.</summary>
internal sealed class RecordDocuments(Sentences say)
{
    /// <summary>Null for what has no words of its own, and for what can no longer be read.</summary>
    public string? Of(RowChange row, string column, string text)
    {
        ArgumentNullException.ThrowIfNull(row);
        try
        {
            return (row.Entity, column) switch
            {
                (nameof(CareTask), nameof(CareTask.Recipe)) => say.Recipe(JsonColumn.Read<TopUpRecipe>(text)),
                (nameof(CareTask), nameof(CareTask.Found)) => say.Found(JsonColumn.Read<WorkFind>(text)),
                (nameof(CareTask), nameof(CareTask.Why)) => say.WhyThen(JsonColumn.Read<TestReason>(text)),
                (nameof(CareTask), nameof(CareTask.Cause)) => Cause(text),
                (nameof(CareTask), nameof(CareTask.DueAtUtc)) => Due(DateTime.Parse(text, CultureInfo.InvariantCulture, DateTimeStyles.RoundtripKind)),
                (nameof(Flag), nameof(Flag.Rule)) => RuleSentences.Name(text),
                (nameof(Flag), nameof(Flag.Numbers)) => Finding(row, text),
                (nameof(Flag), nameof(Flag.Tuning)) => Tuning(row, text),
                (nameof(Reading), nameof(Reading.Outcome)) => Outcome(JsonColumn.Read<ReadingOutcome>(text)),
                (nameof(CareStep), nameof(CareStep.Parameters)) => string.Join(", ", JsonColumn.Read<List<string>>(text).Select(say.Parameter)),
                (nameof(LimitSet), nameof(LimitSet.Limits)) => string.Join("; ", JsonColumn.Read<List<ParameterLimits>>(text).Select(Limits)),
                (nameof(Measurement), nameof(Measurement.Method)) => Sentences.Method(text),
                (_, "Parameter") => say.Parameter(text),
                _ => null,
            };
        }
        catch (Exception unreadable) when (RowChange.IsUnreadable(unreadable))
        {
            // Changed by hand: it stands as it is kept.
            return null;
        }
    }

    /// <summary>Any other document: its codes and values in one line, numbers as they are written here. Null for what is none.</summary>
    public string? Plain(string text)
    {
        try
        {
            using var document = JsonDocument.Parse(text);
            return document.RootElement.ValueKind is JsonValueKind.Object or JsonValueKind.Array ? Plain(document.RootElement) : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    // A day is over when the next begins: whoever reads 06:00 of the day after takes it for another day.
    private string Due(DateTime due)
    {
        var day = say.Format.Calendar.ShopDayOf(due.AddTicks(-1));
        return say.Format.Calendar.EndOf(day) == due ? say.Format.Say(Texts.Record_EndOfDay, say.Format.LongDay(day)) : say.Format.DayAndTime(due);
    }

    private string Cause(string cause) =>
        CareSchedule.IsCauseOfStep(cause) ? Texts.Record_CausePlan
        : ShutdownWork.IsCause(cause) ? Texts.Record_CauseShutdown
        : say.Format.Say(Texts.Record_CauseFlag, say.SubjectOfCause(cause));

    // Of a new flag all columns are there; of a changed one only those that changed, and neither its numbers nor its rule ever do.
    private string? Finding(RowChange row, string numbers) =>
        Cell(row, nameof(Flag.Rule)) is { } rule && Cell(row, nameof(Flag.Severity)) is { } severity && Cell(row, nameof(Flag.Direction)) is { } direction
            ? say.Flag(rule, Cell(row, nameof(Flag.Parameter)) ?? "", Named<Verdict>(severity), Named<Direction>(direction), JsonColumn.Read<Dictionary<string, decimal>>(numbers))
            : null;

    private string? Tuning(RowChange row, string numbers) => Cell(row, nameof(Flag.Rule)) is { } rule
        ? string.Join("; ", JsonColumn.Read<Dictionary<string, decimal>>(numbers).Select(n => say.Format.Say(Texts.Record_Set, RuleSentences.Number(rule, n.Key), say.RuleValue(rule, n.Key, n.Value))))
        : null;

    private static string? Cell(RowChange row, string column) => row.Cells.FirstOrDefault(c => c.Column == column) is { } cell ? cell.After ?? cell.Before : null;

    private static T Named<T>(string number)
        where T : struct, Enum => (T)Enum.ToObject(typeof(T), long.Parse(number, CultureInfo.InvariantCulture));

    private string Outcome(ReadingOutcome outcome) => string.Join("; ", outcome.Measurements.Select(m =>
        say.Format.Say(Texts.Record_Judged, say.Parameter(m.Parameter), say.Value(m.Parameter, m.Value), say.VerdictOn(m.Parameter, m.Verdict, m.Direction))));

    private string Limits(ParameterLimits row)
    {
        string? Value(decimal? limit) => limit is { } value ? say.Value(row.Parameter, value) : null;
        string? Range(string pattern, decimal? low, decimal? high) => say.Format.Range(Value(low), Value(high)) is { } range ? say.Format.Say(pattern, range) : null;
        var ranges = new[] { Range(Texts.Record_LimitsTarget, row.TargetLow, row.TargetHigh), Range(Texts.Record_LimitsWarning, row.WarningLow, row.WarningHigh), Range(Texts.Record_LimitsAction, row.ActionLow, row.ActionHigh) };
        return $"{say.Parameter(row.Parameter)}: {string.Join(", ", ranges.OfType<string>())}";
    }

    private string Plain(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.Object => string.Join(", ", element.EnumerateObject().Where(p => p.Value.ValueKind != JsonValueKind.Null).Select(p => $"{p.Name} {Plain(p.Value)}")),
        JsonValueKind.Array => string.Join("; ", element.EnumerateArray().Select(Plain)),
        JsonValueKind.Number => element.TryGetDecimal(out var number) ? number.ToString("0.############################", say.Format.Culture) : element.GetRawText(),
        JsonValueKind.True => Texts.Setup_Yes,
        JsonValueKind.False => Texts.Setup_No,
        _ => element.ToString(),
    };
}
