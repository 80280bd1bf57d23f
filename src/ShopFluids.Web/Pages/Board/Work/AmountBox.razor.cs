using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Pages.Board.Work;

/// <summary>An amount with its unit and what is wrong with it.</summary>
public sealed partial class AmountBox
{
    [Parameter, EditorRequired]
    public required string Id { get; set; }

    [Parameter, EditorRequired]
    public required string Label { get; set; }

    [Parameter, EditorRequired]
    public required string Unit { get; set; }

    [Parameter, EditorRequired]
    public required string Value { get; set; }

    [Parameter]
    public string? Fault { get; set; }

    [Parameter, EditorRequired]
    public required EventCallback<string> Typed { get; set; }

    private string FaultId => $"{Id}-fault";

    private Task TypeAsync(ChangeEventArgs e) => Typed.InvokeAsync((e.Value as string ?? "").Trim());
}
