using Microsoft.AspNetCore.Components;
using ShopFluids.Rules;

namespace ShopFluids.Web.Shop.Entry;

public partial class LiveVerdicts
{
    private static readonly (Verdict Verdict, Direction Direction)[] Kinds =
    [
        (Verdict.InRange, Direction.None), (Verdict.NotMeasured, Direction.None),
        (Verdict.Warning, Direction.None), (Verdict.Warning, Direction.Low), (Verdict.Warning, Direction.High),
        (Verdict.Action, Direction.None), (Verdict.Action, Direction.Low), (Verdict.Action, Direction.High),
    ];

    /// <summary>How the shop writes its numbers.</summary>
    [Parameter, EditorRequired] public required string Culture { get; set; }
}
