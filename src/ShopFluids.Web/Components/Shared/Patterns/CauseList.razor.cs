using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Wording;
using ShopFluids.Core.Wording.Patterns;
using ShopFluids.Rules.Patterns;

namespace ShopFluids.Web.Components.Shared.Patterns;

/// <summary>The causes that the pattern table gives, in words.</summary>
public sealed partial class CauseList
{
    [Parameter, EditorRequired]
    public required PatternCauses Found { get; set; }

    [Parameter, EditorRequired]
    public required Sentences Words { get; set; }

    /// <summary>All of them, also what something speaks against; otherwise those that lead.</summary>
    [Parameter]
    public bool ShowAll { get; set; }

    private IEnumerable<RankedCause> Shown => ShowAll ? Found.Causes : Found.Leading;

    private string Evidence(IEnumerable<PatternCondition> conditions) => string.Join("; ", conditions.Select(c => Words.Evidence(c, Found.Facts)));

    private static List<string> Of(RankedCause cause, Func<PatternRow, IEnumerable<string>> codes) => [.. cause.Rows.SelectMany(codes).Distinct(StringComparer.Ordinal)];
}
