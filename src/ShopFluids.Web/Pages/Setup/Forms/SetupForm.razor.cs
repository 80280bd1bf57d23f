using System.Data.Common;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Routing;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Setup.Forms;

public sealed partial class SetupForm
{
    private readonly FormState _state;
    private ElementReference _summary;
    private ElementReference _ask;
    private string? _leavingTo;
    private string _said = "";
    private bool _isBusy;
    private bool _isSaved;
    private bool _focusSummary;
    private bool _focusAsk;

    public SetupForm() => _state = new FormState("f", Touched);

    [Parameter, EditorRequired]
    public required DeskWords Words { get; set; }

    /// <summary>The form's name for those who hear the page.</summary>
    [Parameter, EditorRequired]
    public required string Label { get; set; }

    [Parameter, EditorRequired]
    public required string SaveText { get; set; }

    /// <summary>Reads the fields and runs the command; null when done or when the reader holds faults.</summary>
    [Parameter, EditorRequired]
    public required Func<FormReader, Task<Error?>> Save { get; set; }

    /// <summary>After a save; answers what to say, or null when the page goes elsewhere.</summary>
    [Parameter, EditorRequired]
    public required Func<Task<string?>> Saved { get; set; }

    /// <summary>Where a command's error belongs on this form; null takes its own field.</summary>
    [Parameter]
    public Func<FieldError, string>? Place { get; set; }

    /// <summary>Own sentences for errors, by field.</summary>
    [Parameter]
    public Func<Error, IReadOnlyDictionary<string, string>>? Sentence { get; set; }

    /// <summary>Something was typed or chosen.</summary>
    [Parameter]
    public Action? Edited { get; set; }

    [Parameter]
    public string Policy { get; set; } = Policies.CanSupervise;

    [Parameter, EditorRequired]
    public required RenderFragment ChildContent { get; set; }

    /// <summary>Stands beside the button.</summary>
    [Parameter]
    public RenderFragment? Beside { get; set; }

    [Inject]
    public required DeskSession Session { get; init; }

    [Inject]
    public required NavigationManager Navigation { get; init; }

    protected override void OnParametersSet() => _state.Words = Words;

    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (_focusSummary && _state.Faults.Count > 0)
        {
            _focusSummary = false;
            await _summary.FocusAsync();
        }

        if (_focusAsk && _leavingTo is not null)
        {
            _focusAsk = false;
            await _ask.FocusAsync();
        }
    }

    private void Touched()
    {
        StateHasChanged();
        Edited?.Invoke();
    }

    private async Task SubmitAsync()
    {
        // A second press of the button arrives when the first has saved and emptied the form: nothing is asked for that is not typed anew.
        if (_isBusy || (_isSaved && !_state.IsDirty))
        {
            return;
        }

        (_isBusy, _isSaved, _said) = (true, false, "");
        _state.ClearFaults();
        try
        {
            if (await TrySaveAsync())
            {
                _state.Clean();
                _isSaved = true;
                _said = await Saved() ?? "";
            }
            else
            {
                _focusSummary = true;
            }
        }
        finally
        {
            _isBusy = false;
        }
    }

    private async Task<bool> TrySaveAsync()
    {
        // The right is asked for at the act: it may have been taken away since the page was opened.
        if (!await Session.MayAsync(Policy))
        {
            _state.Refuse("", Texts.Setup_MayNot);
            return false;
        }

        try
        {
            var read = new FormReader(Words.Format);
            var error = await Save(read);
            foreach (var (field, fault) in read.Faults)
            {
                _state.Refuse(field, fault);
            }

            if (error is not null)
            {
                Refuse(error);
            }

            _state.Show();
            return _state.Faults.Count == 0;
        }
        catch (Exception fault) when (fault is DbException or DbUpdateException)
        {
            _state.Refuse("", Texts.Setup_NotStored);
            return false;
        }
    }

    private void Refuse(Error error)
    {
        if (Sentence is not null)
        {
            foreach (var (field, sentence) in Sentence(error))
            {
                _state.Refuse(field, sentence);
            }
        }
        else if (error is FieldErrors fields)
        {
            foreach (var fault in fields.Fields)
            {
                _state.Refuse(Place?.Invoke(fault) ?? fault.Field, fault);
            }
        }
        else
        {
            _state.Refuse("", Words.Sentences.Error(error));
        }
    }

    private void AskBeforeLeaving(LocationChangingContext context)
    {
        if (_state.IsDirty && !_isBusy)
        {
            context.PreventNavigation();
            (_leavingTo, _focusAsk) = (context.TargetLocation, true);
            StateHasChanged();
        }
    }

    private void Stay() => _leavingTo = null;

    private void Leave()
    {
        var target = _leavingTo;
        _leavingTo = null;
        _state.Clean();
        if (target is not null)
        {
            Navigation.NavigateTo(target);
        }
    }
}
