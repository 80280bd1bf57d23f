using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Board;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Shared;

namespace ShopFluids.Web.Pages.Board;

/// <summary>Where a sump stands, as mark and word.</summary>
public static class StandingTag
{
    public static MarkupString Of(SumpStanding standing)
    {
        ArgumentNullException.ThrowIfNull(standing);
        return VerdictTag.Of(standing.IsLate ? Texts.Verdict_Overdue : Sentences.Verdict(standing.Verdict, standing.Direction), standing.Verdict, standing.Direction, standing.IsLate);
    }
}
