using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Web.Shop.Saved;

public partial class VerdictBanner
{
    private const int MostReasons = 3;

    [Parameter, EditorRequired] public required SavedView View { get; set; }

    private ReadingOutcome Outcome => View.Page.Outcome;

    private MeasurementOutcome? Worst => Outcome.Verdict >= Verdict.Warning ? Outcome.Measurements.FirstOrDefault(m => m.Verdict == Outcome.Verdict) : null;

    private string CssClass => Outcome.Verdict switch
    {
        Verdict.Action => "verdict act",
        Verdict.Warning => "verdict warn onwarn",
        Verdict.InRange => "verdict ok",
        _ => "verdict none",
    };

    private string Headline => Worst is { } worst ? View.Say(Pattern(worst), View.Visit.Sentences.Parameter(worst.Parameter)) : Sentences.Verdict(Outcome.Verdict);

    private string Why
    {
        get
        {
            var beyond = Outcome.Measurements.Where(m => m.Verdict >= Verdict.Warning).Select(m => m.Parameter).ToHashSet(StringComparer.Ordinal);
            var sentences = Limits.Where(f => beyond.Contains(f.Parameter)).Take(MostReasons)
                .Select(Sentence)
                .Concat(Limits.Where(f => !beyond.Contains(f.Parameter)).Select(StaysOpen))
                .Concat(ClearedParameters.Select(p => View.Say(Texts.Saved_Cleared, View.Visit.Sentences.Parameter(p))))
                .ToList();
            return sentences.Count > 0 ? string.Join(' ', sentences)
                : Outcome.Verdict == Verdict.InRange ? Texts.Saved_AllInRange
                : Outcome.Verdict == Verdict.NotMeasured ? Texts.Saved_NoLimits
                : "";
        }
    }

    // What the other rules found stands below, each with what it suggests.
    private IEnumerable<FlagOutcome> Limits => View.Page.Reasons.Where(f => RuleRegistry.Find(f.Rule) is null);

    // A flag that was open already was raised with another value than was found now.
    private string Sentence(FlagOutcome flag)
    {
        var found = View.Visit.Sentences.Flag(flag.Rule, flag.Parameter, flag.Severity, flag.Direction, flag.Numbers);
        return Outcome.Raised.Any(f => f.Id == flag.Id) || !flag.Numbers.TryGetValue(NumberNames.Value, out var raisedWith)
            || (Outcome.Measurements.FirstOrDefault(m => m.Parameter == flag.Parameter && m.Verdict >= Verdict.Warning) is not { } now) || now.Value == raisedWith
            ? found
            : $"{found} {View.Say(Texts.Flag_LatestValue, View.Visit.Sentences.Value(flag.Parameter, now.Value))}";
    }

    // A flag that gave way to a worse one is not good news: its parameter still has a flag.
    private IEnumerable<string> ClearedParameters =>
        Outcome.Cleared.Where(f => f.Parameter.Length > 0).Select(f => f.Parameter).Distinct(StringComparer.Ordinal).Except(View.Page.Reasons.Select(f => f.Parameter), StringComparer.Ordinal);

    // Inside the limit, but not yet by the margin that clears the flag.
    private string StaysOpen(FlagOutcome flag) =>
        View.Say(Texts.Saved_StaysOpen, View.Visit.Sentences.Parameter(flag.Parameter), View.Visit.Sentences.FlagClears(flag.Rule, flag.Parameter, flag.Direction, flag.Numbers)).TrimEnd();

    private string Pattern(MeasurementOutcome measured) => (measured.Verdict, View.Visit.Sentences.IsBadOnlyHigh(measured.Parameter) ? Direction.None : measured.Direction) switch
    {
        (Verdict.Action, Direction.Low) => Texts.Saved_ActionLow,
        (Verdict.Action, Direction.High) => Texts.Saved_ActionHigh,
        (Verdict.Action, _) => Texts.Saved_Action,
        (_, Direction.Low) => Texts.Saved_WarningLow,
        (_, Direction.High) => Texts.Saved_WarningHigh,
        _ => Texts.Saved_Warning,
    };
}
