using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Pages.Setup.Forms;

public sealed partial class ConfirmButton
{
    private ElementReference _opener;
    private ElementReference _do;
    private string? _fault;
    private bool _isOpen;
    private bool _focusDo;
    private bool _focusOpener;

    [Parameter, EditorRequired]
    public required string OpenText { get; set; }

    /// <summary>What it is done to, for those who hear the button without its row.</summary>
    [Parameter, EditorRequired]
    public required string About { get; set; }

    [Parameter, EditorRequired]
    public required string Question { get; set; }

    [Parameter, EditorRequired]
    public required string DoText { get; set; }

    /// <summary>Answers null when done, or why not as a sentence.</summary>
    [Parameter, EditorRequired]
    public required Func<Task<string?>> Act { get; set; }

    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (_focusDo)
        {
            _focusDo = false;
            await _do.FocusAsync();
        }

        if (_focusOpener)
        {
            _focusOpener = false;
            await _opener.FocusAsync();
        }
    }

    private void Open() => (_isOpen, _focusDo) = (true, true);

    private void Cancel() => (_isOpen, _fault, _focusOpener) = (false, null, true);

    private async Task DoAsync()
    {
        _fault = await Act();
        _isOpen = _fault is not null;
    }
}
