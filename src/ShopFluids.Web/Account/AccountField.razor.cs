using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Account;

/// <summary>One labelled box with its hint and its fault. A password's value is never written back.</summary>
public partial class AccountField
{
    [Parameter, EditorRequired] public required string Name { get; set; }

    [Parameter, EditorRequired] public required string Label { get; set; }

    [Parameter] public string? Value { get; set; }

    [Parameter] public string Type { get; set; } = "text";

    [Parameter] public string Autocomplete { get; set; } = "off";

    [Parameter] public string? InputMode { get; set; }

    [Parameter] public string? Hint { get; set; }

    [Parameter] public string? Error { get; set; }

    [Parameter] public bool IsRequired { get; set; } = true;

    [Parameter] public bool HasFocus { get; set; }

    private string HintId => $"{Name}-hint";

    private string FaultId => $"{Name}-fault";

    private string? DescribedBy => (Hint, Error) switch
    {
        (null, null) => null,
        (not null, null) => HintId,
        (null, not null) => FaultId,
        _ => $"{FaultId} {HintId}",
    };
}
