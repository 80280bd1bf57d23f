using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Board;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Board;

/// <summary>Where a sump stands, as mark and word.</summary>
public sealed partial class StandingTag
{
    [Parameter, EditorRequired]
    public required SumpStanding Standing { get; set; }

    private string Word => Standing.IsLate ? Texts.Verdict_Overdue : Sentences.Verdict(Standing.Verdict, Standing.Direction);
}
