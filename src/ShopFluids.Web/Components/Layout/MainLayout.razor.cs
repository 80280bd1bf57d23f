using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;

namespace ShopFluids.Web.Components.Layout;

public sealed partial class MainLayout
{
    private ErrorBoundary? _boundary;

    [Inject]
    public required NavigationManager Navigation { get; init; }

    // The base address would turn a bare fragment into the start page.
    private string SkipAddress => $"{Navigation.ToBaseRelativePath(Navigation.Uri).Split('#')[0]}#main";

    // A fault belongs to the page it happened on.
    protected override void OnParametersSet() => Recover();

    private void Recover() => _boundary?.Recover();
}
