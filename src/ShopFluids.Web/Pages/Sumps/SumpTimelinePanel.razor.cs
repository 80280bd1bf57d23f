using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Pages.Sumps;

public sealed partial class SumpTimelinePanel
{
    private const int Few = 12;
    private IReadOnlyList<TimelineEntry> _entries = [];
    private bool _showsAll;

    [Parameter, EditorRequired]
    public required SumpView View { get; set; }

    /// <summary>A supervisor looks, and the charge is still in the sump.</summary>
    [Parameter, EditorRequired]
    public required bool MayCorrect { get; set; }

    protected override void OnParametersSet() => _entries = TimelineEntry.Of(View);
}
