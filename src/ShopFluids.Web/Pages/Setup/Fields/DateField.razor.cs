using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Pages.Setup.Fields;

/// <summary>A day, or a shop time, in the browser's own box; kept as the browser writes it.</summary>
public sealed partial class DateField
{
    private ElementReference _box;

    [Parameter, EditorRequired]
    public required string Value { get; set; }

    [Parameter]
    public EventCallback<string> ValueChanged { get; set; }

    /// <summary>Asks for a time of the shop too.</summary>
    [Parameter]
    public bool IsTime { get; set; }

    protected override ValueTask FocusAsync() => _box.FocusAsync();

    private Task ChangeAsync(ChangeEventArgs e)
    {
        Touch();
        return ValueChanged.InvokeAsync(e.Value as string ?? "");
    }
}
