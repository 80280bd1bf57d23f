namespace ShopFluids.Core.Search;

/// <summary>What can be found, in the order in which it is listed.</summary>
public enum SearchGroup
{
    Sumps,
    Machines,
    Fluids,
    Lots,
    Tasks,

    /// <summary>Only for those who may look after people.</summary>
    People,
}

/// <summary>One thing that was found.</summary>
/// <param name="Name">A tag, a name, a lot number, or what is to be done.</param>
/// <param name="Detail">What tells it from others of the same name.</param>
/// <param name="SumpTags">Where it stands or is: of a sump itself, of a machine those that serve it, of a fluid or lot those that hold it.</param>
public sealed record SearchHit(SearchGroup Group, Guid Id, string Name, string Detail, IReadOnlyList<string> SumpTags);

/// <param name="Count">All that fit; <paramref name="Hits"/> are the best of them.</param>
public sealed record SearchHits(SearchGroup Group, IReadOnlyList<SearchHit> Hits, int Count);

/// <summary>What was found for a text, in groups; groups without a find are left out.</summary>
public sealed record SearchResults(string Text, IReadOnlyList<SearchHits> Groups)
{
    public int Count => Groups.Sum(g => g.Count);
}
