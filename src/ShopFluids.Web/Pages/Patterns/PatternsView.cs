using ShopFluids.Core.Patterns;
using ShopFluids.Core.Wording;
using ShopFluids.Core.Wording.Patterns;
using ShopFluids.Rules.Patterns;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Patterns;

/// <summary>The page as it is drawn.</summary>
/// <param name="Seen">What was ticked, by code.</param>
public sealed record PatternsView(PatternPage Page, IReadOnlyList<string> Seen, DeskWords Words)
{
    public bool IsThere(PatternSymptom symptom) => Page.Causes.Symptoms.Contains(symptom.Code, StringComparer.Ordinal);

    /// <summary>What the sump's readings show nobody ticks or unticks.</summary>
    public bool IsKnown(PatternSymptom symptom) => IsThere(symptom) && !Seen.Contains(symptom.Code, StringComparer.Ordinal);

    public string Evidence(PatternRow row) => row.Evidence.Count == 0 ? Texts.Pattern_NoEvidence : string.Join("; ", row.Evidence.Select(Words.Sentences.Condition));
}
