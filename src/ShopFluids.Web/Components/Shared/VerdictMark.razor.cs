using Microsoft.AspNetCore.Components;
using ShopFluids.Rules;

namespace ShopFluids.Web.Components.Shared;

public partial class VerdictMark
{
    [Parameter, EditorRequired] public Verdict Verdict { get; set; }

    [Parameter] public Direction Direction { get; set; }

    [Parameter] public bool IsLate { get; set; }
}
