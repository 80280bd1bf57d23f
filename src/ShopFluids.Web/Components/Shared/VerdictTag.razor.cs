using Microsoft.AspNetCore.Components;
using ShopFluids.Rules;

namespace ShopFluids.Web.Components.Shared;

public partial class VerdictTag
{
    [Parameter, EditorRequired] public Verdict Verdict { get; set; }

    [Parameter] public Direction Direction { get; set; }

    [Parameter] public bool IsLate { get; set; }

    [Parameter] public bool IsFilled { get; set; }

    /// <summary>The word, such as Warning, low, or how late it is.</summary>
    [Parameter, EditorRequired] public required string Text { get; set; }

    private string CssClass => (IsFilled ? "v tag " : "v ") + VerdictLook.CssClass(Verdict, IsLate);
}
