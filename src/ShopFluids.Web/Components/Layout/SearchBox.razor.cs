using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Components.Layout;

/// <summary>The way from anywhere to anything that has a name.</summary>
public sealed partial class SearchBox
{
    /// <summary>What stands in it at first. Not bound: what is typed is the browser's until it is sent.</summary>
    [Parameter]
    public string Text { get; set; } = "";

    /// <summary>It will be drawn anew in a moment; the script keeps what is typed into it until then.</summary>
    [Parameter]
    public bool IsAhead { get; set; }
}
