using Microsoft.AspNetCore.Components;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Pages.Setup.Fields;

/// <summary>Any of a list.</summary>
public sealed partial class ChecksField
{
    private ElementReference _group;

    [Parameter, EditorRequired]
    public required IReadOnlyList<Choice> Choices { get; set; }

    [Parameter, EditorRequired]
    public required IReadOnlySet<string> Chosen { get; set; }

    [Parameter]
    public EventCallback<IReadOnlySet<string>> ChosenChanged { get; set; }

    protected override ValueTask FocusAsync() => _group.FocusAsync();

    private Task ChangeAsync(string value, ChangeEventArgs e)
    {
        Touch();
        var chosen = new HashSet<string>(Chosen, StringComparer.Ordinal);
        if (e.Value is true)
        {
            chosen.Add(value);
        }
        else
        {
            chosen.Remove(value);
        }

        return ChosenChanged.InvokeAsync(chosen);
    }
}
