using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Board.Work;

public sealed partial class ReasonForm
{
    private string _id = "";
    private string _reason = "";
    private string? _fault;
    private bool _isOpen;
    private bool _focusBox;
    private bool _focusOpener;
    private ElementReference _box;
    private ElementReference _opener;

    [Parameter, EditorRequired]
    public required string OpenText { get; set; }

    [Parameter, EditorRequired]
    public required string Question { get; set; }

    [Parameter, EditorRequired]
    public required string DoText { get; set; }

    [Parameter, EditorRequired]
    public required int MaximumLength { get; set; }

    /// <summary>Answers null when done, or why not as a sentence; what was typed then stays.</summary>
    [Parameter, EditorRequired]
    public required Func<string, Task<string?>> Act { get; set; }

    [Inject]
    public required ShopClock Clock { get; init; }

    protected override void OnInitialized() => _id = $"why-{Clock.NewId():N}";

    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (_focusBox)
        {
            _focusBox = false;
            await _box.FocusAsync();
        }

        if (_focusOpener)
        {
            _focusOpener = false;
            await _opener.FocusAsync();
        }
    }

    private void Open() => (_isOpen, _focusBox) = (true, true);

    private void Cancel() => (_isOpen, _fault, _focusOpener) = (false, null, true);

    private async Task DoAsync()
    {
        if (string.IsNullOrWhiteSpace(_reason))
        {
            (_fault, _focusBox) = (Texts.Board_ReasonMissing, true);
            return;
        }

        _fault = await Act(_reason);
        _isOpen = _fault is not null;
    }
}
