using Microsoft.AspNetCore.Components;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Pages.Setup.Fields;

/// <summary>One of a list.</summary>
public sealed partial class ChoiceField
{
    private ElementReference _box;

    [Parameter, EditorRequired]
    public required IReadOnlyList<Choice> Choices { get; set; }

    /// <summary>Empty while nothing is chosen.</summary>
    [Parameter, EditorRequired]
    public required string Value { get; set; }

    [Parameter]
    public EventCallback<string> ValueChanged { get; set; }

    /// <summary>What the empty choice says; null when something is always chosen.</summary>
    [Parameter]
    public string? EmptyText { get; set; }

    protected override ValueTask FocusAsync() => _box.FocusAsync();

    private Task ChangeAsync(ChangeEventArgs e)
    {
        Touch();
        return ValueChanged.InvokeAsync(e.Value as string ?? "");
    }
}
