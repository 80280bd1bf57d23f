using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Pages.Sumps;

/// <summary>What may be behind what is off at this sump.</summary>
public sealed partial class SumpCauses
{
    [Parameter, EditorRequired]
    public required SumpView View { get; set; }
}
