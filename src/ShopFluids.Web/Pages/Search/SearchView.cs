using System.Globalization;
using ShopFluids.Core.Search;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Pages.Machines;
using ShopFluids.Web.Pages.Stores;

namespace ShopFluids.Web.Pages.Search;

/// <summary>What was found, with where each find leads for the person who looks.</summary>
/// <param name="Format">Null where nothing was looked for.</param>
public sealed record SearchView(SearchResults Results, bool IsSupervisor, ShopFormat? Format)
{
    /// <summary>How much was found, as it is said aloud.</summary>
    public string Said => Results.Count switch
    {
        0 => Texts.Search_Nothing,
        1 => Texts.Search_One,
        var count => string.Format(Format?.Culture ?? CultureInfo.InvariantCulture, Texts.Search_Many, count),
    };

    public string Say(string pattern, params object?[] values) => string.Format(Format?.Culture ?? CultureInfo.InvariantCulture, pattern, values);

    public static string Name(SearchGroup group) => group switch
    {
        SearchGroup.Sumps => Texts.Search_Sumps,
        SearchGroup.Machines => Texts.Search_Machines,
        SearchGroup.Fluids => Texts.Search_Fluids,
        SearchGroup.Lots => Texts.Search_Lots,
        SearchGroup.Tasks => Texts.Search_Tasks,
        SearchGroup.People => Texts.Search_People,
        _ => throw new ArgumentOutOfRangeException(nameof(group), group, "There is no name for this group."),
    };

    /// <summary>The page of a find, under the base of the desk; null where the person has none: the search page itself then says all there is.</summary>
    public string? AddressOf(SearchHit hit)
    {
        ArgumentNullException.ThrowIfNull(hit);
        return hit.Group switch
        {
            SearchGroup.Sumps or SearchGroup.Tasks => SumpAddress(hit.SumpTags[0]),
            SearchGroup.Machines => MachineAddress.Of(hit.Name),
            SearchGroup.Fluids => IsSupervisor ? "setup/fluids" : null,
            SearchGroup.Lots => StoresAddress.Lot(hit.Id),
            // What a person has to do.
            _ => $"board?person={hit.Id:D}",
        };
    }

    public static string SumpAddress(string tag) => $"sumps/{Uri.EscapeDataString(tag)}";

    public static string Again(string text) => $"search?q={Uri.EscapeDataString(text)}";
}
