using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Pages.Setup.Fields;

/// <summary>A line of text, or several. Length is checked by the command, so that nothing typed is cut off.</summary>
public sealed partial class TextField
{
    private ElementReference _box;

    [Parameter, EditorRequired]
    public required string Value { get; set; }

    [Parameter]
    public EventCallback<string> ValueChanged { get; set; }

    [Parameter]
    public int Rows { get; set; } = 1;

    [Parameter]
    public string Type { get; set; } = "text";

    [Parameter]
    public string Autocomplete { get; set; } = "off";

    /// <summary>Offered while a line is typed; anything else may be typed as well.</summary>
    [Parameter]
    public IReadOnlyList<string> Choices { get; set; } = [];

    private string? ListId => Choices.Count == 0 ? null : $"{Id}-choices";

    protected override ValueTask FocusAsync() => _box.FocusAsync();

    private Task ChangeAsync(ChangeEventArgs e)
    {
        Touch();
        return ValueChanged.InvokeAsync(e.Value as string ?? "");
    }
}
