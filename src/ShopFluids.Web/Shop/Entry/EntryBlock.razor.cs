using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Readings;

namespace ShopFluids.Web.Shop.Entry;

public partial class EntryBlock
{
    [Parameter, EditorRequired] public required EntryView View { get; set; }

    [Parameter, EditorRequired] public required EntryField Field { get; set; }

    /// <summary>The control that takes the cursor.</summary>
    [Parameter] public string? Focus { get; set; }
}
