using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Setup.Care;

/// <summary>The preview of a template: any of its steps that the plan does not have.</summary>
public sealed partial class TemplateStepsField
{
    private ElementReference _group;

    [Parameter, EditorRequired]
    public required IReadOnlyList<OfferedStep> Steps { get; set; }

    [Parameter, EditorRequired]
    public required IReadOnlySet<string> Chosen { get; set; }

    [Parameter]
    public EventCallback<IReadOnlySet<string>> ChosenChanged { get; set; }

    [Parameter, EditorRequired]
    public required ShopFormat Format { get; set; }

    protected override ValueTask FocusAsync() => _group.FocusAsync();

    private Task ChangeAsync(string code, ChangeEventArgs e)
    {
        Touch();
        var chosen = new HashSet<string>(Chosen, StringComparer.Ordinal);
        if (e.Value is true)
        {
            chosen.Add(code);
        }
        else
        {
            chosen.Remove(code);
        }

        return ChosenChanged.InvokeAsync(chosen);
    }
}
