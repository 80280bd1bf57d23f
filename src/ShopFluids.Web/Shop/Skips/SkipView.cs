using ShopFluids.Core.Rounds;

namespace ShopFluids.Web.Shop.Skips;

/// <summary>The page that asks why sumps are passed by: one, or all that are left.</summary>
/// <param name="Stops">What is passed by.</param>
/// <param name="IsFinish">The round ends with it.</param>
/// <param name="Faults">What is wrong with the answer, by field.</param>
public sealed record SkipView(
    ShopVisit Visit, IReadOnlyList<RoundStop> Stops, DateTime NowUtc, bool IsFinish, SkipReason? Reason, string Words, IReadOnlyDictionary<string, string> Faults, string? Notice = null)
{
    public const string SumpName = "sump";
    public const string FinishName = "finish";

    public string? FaultAt(string field) => Faults.GetValueOrDefault(field);
}
