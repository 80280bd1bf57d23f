using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Pages.Sheets.Panels;

public sealed partial class PaperChoice
{
    /// <summary>Tells its radio buttons from those of another panel.</summary>
    [Parameter, EditorRequired]
    public required string Name { get; set; }

    [Parameter]
    public bool IsLetter { get; set; }

    [Parameter]
    public EventCallback<bool> IsLetterChanged { get; set; }
}
