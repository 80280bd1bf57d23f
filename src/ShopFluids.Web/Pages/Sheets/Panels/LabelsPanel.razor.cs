using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Pages.Sheets.Panels;

/// <summary>Labels to stick on sumps; a plain form that opens the file.</summary>
public sealed partial class LabelsPanel
{
    /// <summary>Of the sumps in use.</summary>
    [Parameter, EditorRequired]
    public required IReadOnlyList<string> Tags { get; set; }
}
