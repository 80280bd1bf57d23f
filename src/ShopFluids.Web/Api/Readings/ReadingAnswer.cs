using ShopFluids.Calculations.Mixing;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Api.Json;

namespace ShopFluids.Web.Api.Readings;

/// <summary>What a reading means and what to do.</summary>
/// <param name="Advice">Null where volume or concentration is not known.</param>
/// <param name="NextTestDue">The moment at which the next test becomes late; null when none is planned.</param>
internal sealed record ReadingAnswer(
    Guid Id,
    string Sump,
    string Verdict,
    IReadOnlyList<MeasurementAnswer> Measurements,
    IReadOnlyList<FlagAnswer> FlagsRaised,
    IReadOnlyList<FlagAnswer> FlagsCleared,
    AdviceAnswer? Advice,
    IReadOnlyList<TaskAnswer> TasksMade,
    IReadOnlyList<TaskAnswer> TasksClosed,
    IReadOnlyList<CautionAnswer> Cautions,
    DateTime? NextTestDue)
{
    public static ReadingAnswer Of(string sump, ReadingOutcome outcome, Sentences say) => new(
        outcome.ReadingId,
        sump,
        Codes.Of(outcome.Verdict),
        [.. outcome.Measurements.Select(m => MeasurementAnswer.Of(m, say))],
        [.. outcome.Raised.Select(f => FlagAnswer.Of(f, say))],
        [.. outcome.Cleared.Select(f => FlagAnswer.Of(f, say))],
        AdviceAnswer.Of(outcome.Recipe, say),
        [.. outcome.Made.Select(t => TaskAnswer.Of(t, "open", outcome.Recipe, say))],
        [.. outcome.Done.Select(t => TaskAnswer.Of(t, "done", null, say)), .. outcome.Withdrawn.Select(t => TaskAnswer.Of(t, "withdrawn", null, say))],
        [.. outcome.Cautions.Select(c => new CautionAnswer(Codes.Of(c), Sentences.Caution(c)))],
        outcome.NextTestDueAtUtc);
}

/// <param name="Value">Worked out, in <paramref name="Unit"/>.</param>
/// <param name="Uncertainty">Expanded, k = 2.</param>
/// <param name="Limit">The limit that was crossed; null in range.</param>
/// <param name="Text">The value with its unit, as people read it.</param>
/// <param name="VerdictText">The verdict in words.</param>
/// <param name="Unlikely">Outside the usual range, or a large step from <paramref name="Previous"/>.</param>
internal sealed record MeasurementAnswer(
    string Parameter,
    string Method,
    decimal RawValue,
    string RawUnit,
    decimal Value,
    string Unit,
    decimal Uncertainty,
    string Verdict,
    string Direction,
    decimal? Limit,
    bool Unlikely,
    decimal? Previous,
    string Text,
    string VerdictText)
{
    public static MeasurementAnswer Of(MeasurementOutcome outcome, Sentences say) => new(
        outcome.Parameter,
        outcome.Method,
        outcome.RawValue,
        outcome.RawUnit,
        outcome.Value,
        outcome.Unit,
        outcome.Uncertainty,
        Codes.Of(outcome.Verdict),
        Codes.Of(outcome.Direction),
        outcome.Limit,
        outcome.IsUnlikely,
        outcome.Previous,
        say.Value(outcome.Parameter, outcome.Value),
        say.VerdictOn(outcome.Parameter, outcome.Verdict, outcome.Direction));
}

internal sealed record FlagAnswer(Guid Id, string Rule, string Parameter, string Severity, string Direction, IReadOnlyDictionary<string, decimal> Numbers, string Text)
{
    public static FlagAnswer Of(FlagOutcome flag, Sentences say) => new(
        flag.Id,
        flag.Rule,
        flag.Parameter,
        Codes.Of(flag.Severity),
        Codes.Of(flag.Direction),
        flag.Numbers,
        say.Flag(flag.Rule, flag.Parameter, flag.Severity, flag.Direction, flag.Numbers));
}

/// <summary>The recipe. Concentrate is stirred into the water, outside the sump.</summary>
/// <param name="Case">nothingToAdd, topUp, topUpEndsHigh, removeFirst, noRemovalPossible or swapAtLevel.</param>
internal sealed record AdviceAnswer(
    string Case,
    double ConcentrateLitres,
    double WaterLitres,
    double RemoveLitres,
    double PremixPercent,
    double ExpectedLitres,
    double ExpectedPercent,
    double UncertaintyPercent,
    string Text)
{
    private const int Decimals = 4;

    public static AdviceAnswer? Of(TopUpRecipe? recipe, Sentences say) => recipe is null ? null : new(
        Codes.Of(recipe.Case),
        Short(recipe.ConcentrateLitres),
        Short(recipe.WaterLitres),
        Short(recipe.RemoveLitres),
        Short(recipe.PremixPercent),
        Short(recipe.ExpectedLitres),
        Short(recipe.ExpectedPercent),
        Short(recipe.UncertaintyPercent),
        say.Recipe(recipe));

    // The last digits of a double say nothing about a sump.
    private static double Short(double value) => Math.Round(value, Decimals, MidpointRounding.AwayFromZero);
}

internal sealed record TaskAnswer(Guid Id, string Kind, string State, string Cause, DateTime Due, string Text)
{
    public static TaskAnswer Of(TaskOutcome task, string state, TopUpRecipe? recipe, Sentences say) =>
        new(task.Id, Codes.Of(task.Kind), state, task.Cause, task.DueAtUtc, say.Task(task.Kind, task.Cause, recipe));
}

internal sealed record CautionAnswer(string Code, string Text);
