using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Web.Shop.Entry;

/// <summary>The sentences of the entry page.</summary>
internal static class EntryWords
{
    public static string Label(ShopVisit visit, EntryField field) => field.Ways[0].Method == MeasuringMethod.Titration
        ? visit.Say(Texts.Entry_ByTitration, visit.Sentences.Parameter(field.Parameter))
        : field.Parameter == ParameterCodes.Level ? Texts.Entry_LevelLabel : visit.Sentences.Parameter(field.Parameter);

    /// <summary>Last 8.2 %, 6 days ago, the value in bold; of a level also what was added since.</summary>
    public static MarkupString Last(ShopVisit visit, EntryField field, EntryPage page)
    {
        if (field.Last is not { } last)
        {
            return new(Encode(Texts.Entry_NoLast));
        }

        var value = $"<b>{Encode(visit.Sentences.Value(field.Parameter, last.Value))}</b>";
        return new(field.Parameter == ParameterCodes.Level && page.FilledToMm is { } filled
            ? visit.Say(Encode(Texts.Entry_LastThenFilled), value, Encode(visit.Format.Length(filled)))
            : visit.Say(Encode(Texts.Entry_Last), value, Encode(visit.Format.Ago(last.TakenAtUtc, page.NowUtc))));
    }

    /// <summary>The gauge in words.</summary>
    public static string Gauge(ShopVisit visit, EntryField field, decimal? now)
    {
        string Value(decimal value) => visit.Sentences.Value(field.Parameter, value);
        var limits = field.Limits;
        var parts = new List<string?>
        {
            (limits?.TargetLow, limits?.TargetHigh) switch
            {
                ({ } low, { } high) => visit.Say(Texts.Entry_GaugeTarget, Value(low), Value(high)),
                ({ } low, null) => visit.Say(Texts.Entry_GaugeTargetFrom, Value(low)),
                (null, { } high) => visit.Say(Texts.Entry_GaugeTargetUpTo, Value(high)),
                _ => null,
            },
            limits?.WarningLow is { } under ? visit.Say(Texts.Entry_GaugeWarningUnder, Value(under)) : null,
            limits?.WarningHigh is { } over ? visit.Say(Texts.Entry_GaugeWarningOver, Value(over)) : null,
            limits?.ActionLow is { } farUnder ? visit.Say(Texts.Entry_GaugeActionUnder, Value(farUnder)) : null,
            limits?.ActionHigh is { } farOver ? visit.Say(Texts.Entry_GaugeActionOver, Value(farOver)) : null,
            field.Last is { } last ? visit.Say(Texts.Entry_GaugeLast, Value(last.Value)) : null,
            now is { } value ? visit.Say(Texts.Entry_GaugeNow, Value(value)) : null,
        };
        return string.Join(", ", parts.OfType<string>());
    }

    public static string Question(ShopVisit visit, TypedField typed, MeasurementOutcome measured) => measured.Method == MeasuringMethod.Refractometer
        ? visit.Say(Texts.Entry_QuestionScale, typed.Value)
        : visit.Say(Texts.Entry_QuestionValue, visit.Sentences.Parameter(measured.Parameter), typed.Value);

    public static string Keep(ShopVisit visit, TypedField typed, MeasurementOutcome measured) => measured.Method == MeasuringMethod.Refractometer
        ? visit.Say(Texts.Entry_KeepScale, typed.Value)
        : visit.Say(Texts.Entry_KeepValue, typed.Value);

    /// <summary>What it gives, how far that is from the last value, what is usual, and the commonest slip.</summary>
    public static string Why(ShopVisit visit, EntryField field, EntryPage page, TypedField typed, MeasurementOutcome measured)
    {
        var value = visit.Sentences.Value(field.Parameter, measured.Value);
        var sentences = new List<string>
        {
            Change(visit, field, page, measured) is { } change ? visit.Say(Texts.Entry_GivesChanged, value, change) : visit.Say(Texts.Entry_Gives, value),
        };
        if (IsUnusual(field, measured.Value))
        {
            sentences.Add(Usual(visit, field));
        }

        if (measured.Method == MeasuringMethod.Refractometer && page.RefractometerFactor != 1)
        {
            var scale = (measured.RawValue / page.RefractometerFactor) + page.ZeroBrix;
            sentences.Add(visit.Say(Texts.Entry_WorkedOutAlready, typed.Value, visit.Format.Number(scale, 1)));
        }

        return string.Join(' ', sentences);
    }

    private static string Encode(string text) => HtmlEncoder.Default.Encode(text);

    private static bool IsUnusual(EntryField field, decimal value) => value < field.UsualLow || value > field.UsualHigh;

    private static string Usual(ShopVisit visit, EntryField field) => (field.UsualLow, field.UsualHigh) switch
    {
        ({ } low, { } high) => visit.Say(Texts.Entry_Usual, visit.BareValue(field.Parameter, low), visit.Sentences.Value(field.Parameter, high)),
        ({ } low, _) => visit.Say(Texts.Entry_UsualAtLeast, visit.Sentences.Value(field.Parameter, low)),
        (_, { } high) => visit.Say(Texts.Entry_UsualAtMost, visit.Sentences.Value(field.Parameter, high)),
        _ => "",
    };

    /// <summary>up 4.4 in 6 days; null without a last value or without a change.</summary>
    private static string? Change(ShopVisit visit, EntryField field, EntryPage page, MeasurementOutcome measured)
    {
        if (field.Last is not { } last || measured.Previous is not { } previous || previous == measured.Value)
        {
            return null;
        }

        var amount = visit.BareValue(field.Parameter, Math.Abs(measured.Value - previous));
        var days = visit.Format.ToShopTime(page.NowUtc).Date.Subtract(visit.Format.ToShopTime(last.TakenAtUtc).Date).Days;
        var isUp = measured.Value > previous;
        return days switch
        {
            <= 0 => visit.Say(isUp ? Texts.Entry_UpToday : Texts.Entry_DownToday, amount),
            1 => visit.Say(isUp ? Texts.Entry_UpSinceYesterday : Texts.Entry_DownSinceYesterday, amount),
            _ => visit.Say(isUp ? Texts.Entry_UpInDays : Texts.Entry_DownInDays, amount, visit.Format.Count(days)),
        };
    }
}
