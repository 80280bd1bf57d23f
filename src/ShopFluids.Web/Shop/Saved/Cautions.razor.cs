using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Web.Shop.Saved;

public partial class Cautions
{
    private const int MostLines = 3;

    [Parameter, EditorRequired] public required SavedView View { get; set; }

    // The gas stands beside the verdict already.
    private IEnumerable<(string Lead, string More)> Lines => View.Page.Outcome.Cautions.Where(c => c != Caution.HydrogenSulphide).Select(c => Split(Sentences.Caution(c, View.Page.SafetySheetPlace)));

    // The first clause carries the caution; it is what a glance must catch.
    private static (string Lead, string More) Split(string sentence)
    {
        var end = sentence.AsSpan().IndexOfAny('.', ':');
        return end < 0 ? (sentence, "") : (sentence[..(end + 1)], sentence[(end + 1)..]);
    }
}
