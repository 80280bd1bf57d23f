using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Shop.Entry;

public partial class NumberPad
{
    /// <summary>The decimal sign of the shop.</summary>
    [Parameter, EditorRequired] public required string Point { get; set; }
}
