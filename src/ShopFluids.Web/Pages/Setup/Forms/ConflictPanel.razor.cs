using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Setup.Forms;

public sealed partial class ConflictPanel
{
    private ElementReference _panel;

    [Parameter, EditorRequired]
    public required IReadOnlyList<DraftLine> Mine { get; set; }

    /// <summary>The same fields in the same order.</summary>
    [Parameter, EditorRequired]
    public required IReadOnlyList<DraftLine> Stored { get; set; }

    /// <summary>Goes on with what was typed; the next save takes the place of theirs.</summary>
    [Parameter, EditorRequired]
    public required EventCallback KeepMine { get; set; }

    /// <summary>Goes on with what is stored; what was typed is dropped.</summary>
    [Parameter, EditorRequired]
    public required EventCallback TakeStored { get; set; }

    private IReadOnlyList<(DraftLine Mine, DraftLine Stored)> Differing => [.. Mine.Zip(Stored).Where(p => p.First.Text.Trim() != p.Second.Text.Trim())];

    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (firstRender)
        {
            await _panel.FocusAsync();
        }
    }

    private static string Shown(DraftLine line) => string.IsNullOrWhiteSpace(line.Text) ? Texts.Conflict_Nothing : line.Text;
}
