using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Shop;

public partial class TabletFields
{
    [Parameter, EditorRequired] public required Guid Id { get; set; }

    /// <summary>Empty on a fresh page.</summary>
    [Parameter] public string? SavedAt { get; set; }

    [Parameter] public string? SentAt { get; set; }
}
