using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Account;

/// <param name="Value">What is posted.</param>
/// <param name="Text">What is shown.</param>
public sealed record Choice(string Value, string Text);

/// <summary>One labelled list to choose from.</summary>
public partial class AccountChoice
{
    [Parameter, EditorRequired] public required string Name { get; set; }

    [Parameter, EditorRequired] public required string Label { get; set; }

    [Parameter, EditorRequired] public required IReadOnlyList<Choice> Choices { get; set; }

    [Parameter] public string? Value { get; set; }

    [Parameter] public string? Error { get; set; }

    private string FaultId => $"{Name}-fault";
}
