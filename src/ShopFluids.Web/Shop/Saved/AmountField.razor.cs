using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Shop.Saved;

public partial class AmountField
{
    [Parameter, EditorRequired] public required string Name { get; set; }

    [Parameter, EditorRequired] public required string Label { get; set; }

    [Parameter, EditorRequired] public required string Unit { get; set; }

    [Parameter] public string Value { get; set; } = "";

    [Parameter] public string? Fault { get; set; }

    /// <summary>The id of what else is said of it.</summary>
    [Parameter] public string? DescribedBy { get; set; }

    /// <summary>The page opens here: what is wrong must not lie out of sight.</summary>
    [Parameter] public bool TakesCursor { get; set; }

    private string FaultId => $"{Name}-fault";
}
