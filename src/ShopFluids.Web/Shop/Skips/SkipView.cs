using ShopFluids.Core.Rounds;

namespace ShopFluids.Web.Shop.Skips;

/// <summary>The page that asks why sumps are passed by: one, or all that are left.</summary>
/// <param name="Id">Of the answer: sent twice, it is one.</param>
/// <param name="Stops">What is passed by.</param>
/// <param name="IsFinish">The round ends with it.</param>
/// <param name="Faults">What is wrong with the answer, by field.</param>
public sealed record SkipView(
    ShopVisit Visit, Guid Id, IReadOnlyList<RoundStop> Stops, DateTime NowUtc, bool IsFinish, SkipReason? Reason, string Words, IReadOnlyDictionary<string, string> Faults, string? Notice = null)
{
    public const string IdName = "id";
    public const string SumpName = "sump";
    public const string FinishName = "finish";

    /// <summary>When it was saved on the tablet, as the form said.</summary>
    public string SavedAt { get; init; } = "";

    public string SentAt { get; init; } = "";

    /// <summary>Nothing was sent yet: the tablet gives it an id of its own.</summary>
    public bool IsFresh => Faults.Count == 0 && Notice is null;

    /// <summary>The page with this form.</summary>
    public string Address => IsFinish || Stops.Count == 0 ? Visit.Links.FinishRound : Visit.Links.SkipOf(Stops[0].Place.Tag);

    public string? FaultAt(string field) => Faults.GetValueOrDefault(field);
}
