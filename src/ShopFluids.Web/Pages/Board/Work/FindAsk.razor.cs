using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Shop.Saved;

namespace ShopFluids.Web.Pages.Board.Work;

public sealed partial class FindAsk
{
    private string _id = "";
    private FindInput _typed = FindInput.Empty;
    private string? _fault;
    private bool _focusOpener;
    private ElementReference _opener;

    [Parameter, EditorRequired]
    public required TaskKind Kind { get; set; }

    [Parameter, EditorRequired]
    public required string SumpTag { get; set; }

    [Parameter, EditorRequired]
    public required DeskWords Words { get; set; }

    /// <summary>Answers null when done, or why not as a sentence; what was typed then stays.</summary>
    [Parameter, EditorRequired]
    public required Func<TypedFind, Task<string?>> Act { get; set; }

    [Parameter, EditorRequired]
    public required bool IsOpen { get; set; }

    [Parameter]
    public EventCallback<bool> IsOpenChanged { get; set; }

    [Inject]
    public required ShopClock Clock { get; init; }

    private string ValueId => $"found-{_id}";

    private string NoteId => $"found-note-{_id}";

    protected override void OnInitialized() => _id = $"{Clock.NewId():N}";

    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (_focusOpener)
        {
            _focusOpener = false;
            await _opener.FocusAsync();
        }
    }

    private Task OpenAsync() => IsOpenChanged.InvokeAsync(true);

    private Task CancelAsync()
    {
        (_fault, _focusOpener) = (null, true);
        return IsOpenChanged.InvokeAsync(false);
    }

    private async Task DoAsync()
    {
        var (find, fault) = _typed.For(Kind, Words.Setup.FindSump(SumpTag), Words.Format.Units);
        _fault = fault is not null ? Words.Sentences.Field(fault) : await Act(find);
        await IsOpenChanged.InvokeAsync(_fault is not null);
    }

    private static string Text(ChangeEventArgs e) => (e.Value as string ?? "").Trim();
}
