using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Components.Shared.Loading;

/// <summary>Draws the four states of loaded data: loading, failed with a way to retry, empty, and there.</summary>
public sealed partial class LoadView<T>
{
    [Parameter, EditorRequired]
    public required Load<T> State { get; set; }

    [Parameter, EditorRequired]
    public required Func<Task> Retry { get; set; }

    /// <summary>What is true when there is nothing, when that changes, and one way on.</summary>
    [Parameter, EditorRequired]
    public required RenderFragment Empty { get; set; }

    /// <summary>When the loaded value counts as nothing; null when it never does.</summary>
    [Parameter]
    public Func<T, bool>? IsEmpty { get; set; }

    [Parameter, EditorRequired]
    public required RenderFragment<T> ChildContent { get; set; }
}
