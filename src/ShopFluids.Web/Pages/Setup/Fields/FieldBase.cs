using Microsoft.AspNetCore.Components;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Fields;

/// <summary>What every field of a set-up form has: a name, a label, a hint, and the fault that the form found at it.</summary>
public abstract class FieldBase : ComponentBase, IDisposable
{
    private FormField? _shown;

    [CascadingParameter]
    public required FormState Form { get; set; }

    /// <summary>The field's name as the commands name it in their errors.</summary>
    [Parameter, EditorRequired]
    public required string Name { get; set; }

    [Parameter, EditorRequired]
    public required string Label { get; set; }

    [Parameter]
    public string? Hint { get; set; }

    [Parameter]
    public bool IsOptional { get; set; }

    /// <summary>In a table the head of the column is seen instead; the label is still there to be heard.</summary>
    [Parameter]
    public bool IsLabelHidden { get; set; }

    public string Id => Form.IdOf(Name);

    public string? Fault => Form.Fault(Name);

    protected string? Invalid => Fault is null ? null : "true";

    /// <summary>The ids of what is said about the box beside its label.</summary>
    protected virtual string? DescribedBy
    {
        get
        {
            var ids = string.Join(' ', new[] { Hint is null ? null : $"{Id}-hint", Fault is null ? null : $"{Id}-fault" }.OfType<string>());
            return ids.Length == 0 ? null : ids;
        }
    }

    public void Dispose()
    {
        if (_shown is { } shown)
        {
            Form.Unregister(Name, shown);
        }

        GC.SuppressFinalize(this);
    }

    protected override void OnParametersSet()
    {
        _shown = new FormField(Label, FocusAsync, StateHasChanged);
        Form.Register(Name, _shown);
    }

    protected abstract ValueTask FocusAsync();

    /// <summary>Something was typed or chosen: the form has something to lose, and what was said of this field is no longer true.</summary>
    protected void Touch() => Form.Touch(Name);
}
