using System.Text.RegularExpressions;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;

namespace ShopFluids.Testing.Shop;

/// <summary>Outcomes as text, to be compared.</summary>
public static partial class Outcomes
{
    /// <summary>Everything in it, ids too.</summary>
    public static string Whole(ReadingOutcome outcome) => JsonColumn.Write(outcome);

    /// <summary>Everything but the ids, which every making chooses anew.</summary>
    public static string ModuloIds(ReadingOutcome outcome) => ModuloIds(Whole(outcome));

    public static string ModuloIds(string text) => AnId().Replace(text, "ID");

    [GeneratedRegex("[0-9a-fA-F]{8}-[0-9a-fA-F]{4}-[0-9a-fA-F]{4}-[0-9a-fA-F]{4}-[0-9a-fA-F]{12}", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex AnId();
}
