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

    private static string Encode(string text) => HtmlEncoder.Default.Encode(text);
}
