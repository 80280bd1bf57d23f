using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Shop;

public partial class StatePage
{
    [Parameter, EditorRequired] public required ShopVisit Visit { get; set; }

    [Parameter, EditorRequired] public required string Heading { get; set; }

    [Parameter, EditorRequired] public required string Title { get; set; }

    [Parameter, EditorRequired] public required string Text { get; set; }

    [Parameter] public bool IsFault { get; set; }
}
