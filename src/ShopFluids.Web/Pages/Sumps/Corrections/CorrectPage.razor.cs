using System.Data.Common;
using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Readings.Corrections;
using ShopFluids.Core.Tuning;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Components.Shared;
using ShopFluids.Web.Pages.Board;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Sumps.Corrections;

/// <summary>Corrects a reading: a new one takes its place, with a reason, and the old one stays to be seen, struck through.</summary>
public sealed partial class CorrectPage
{
    private CorrectionEffect _effect = CorrectionEffect.Unknown;
    private CorrectionView? _drafted;
    private TypingPause? _pause;
    private string _refusal = "";

    // What is reckoned of older numbers than those in the boxes is not shown.
    private int _previews;

    // A list that was left as it was after all is drawn anew.
    private int _adds;

    [Parameter]
    public required string Tag { get; set; }

    [Parameter]
    public Guid Id { get; set; }

    [Inject]
    public required CorrectionPageQuery Query { get; init; }

    [Inject]
    public required PreviewReadingQuery Preview { get; init; }

    [Inject]
    public required RecordReadingHandler Handler { get; init; }

    [Inject]
    public required TimeProvider Time { get; init; }

    protected override string FailedText => Texts.Correct_Failed;

    private string BackText => string.Format(System.Globalization.CultureInfo.CurrentCulture, Texts.Correct_Back, Tag);

    protected override void OnInitialized() => _pause = new TypingPause(Time, Leaving);

    protected override async Task<CorrectionView> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        // What is being typed outlives a second look at the same reading.
        if (_drafted is { Page: { } page } && page.ReadingId == Id)
        {
            return _drafted;
        }

        var found = await Query.RunAsync(Tag, Id, cancellationToken);
        if (found.Value is not { } read)
        {
            _refusal = words.Sentences.Error(found.Error ?? new ReadingNotFound(Id));
            return new(words, null, null, _refusal);
        }

        _drafted = new(words, read, new CorrectionDraft(read, Clock.NewId(), words.Format), "");
        _effect = await EffectAsync(_drafted, cancellationToken);
        return _drafted;
    }

    private static string NameOf(DeskWords words, EntryField field) => new CorrectionRow(field, null, [], words.Format).Name(words.Sentences);

    private void Restart() => _ = PreviewLaterAsync();

    private void AddRow(ChangeEventArgs e)
    {
        _adds++;
        if (_drafted is { Draft: { } draft } && draft.Left.FirstOrDefault(f => f.Key == e.Value as string) is { } field)
        {
            draft.Add(field);
        }
    }

    private async Task PreviewLaterAsync()
    {
        try
        {
            if (_pause is { } pause && await pause.IsOverAsync())
            {
                await PreviewAsync();
            }
        }
        catch (OperationCanceledException) when (Leaving.IsCancellationRequested)
        {
            // The page was left while somebody was typing.
        }
        catch (Exception fault)
        {
            // Nobody waits for it; the circuit has to be told.
            await DispatchExceptionAsync(fault);
        }
    }

    private async Task PreviewAsync()
    {
        if (_drafted is not { } view || Leaving.IsCancellationRequested)
        {
            return;
        }

        var preview = ++_previews;
        CorrectionEffect effect;
        try
        {
            effect = await EffectAsync(view, Leaving);
        }
        catch (OperationCanceledException) when (Leaving.IsCancellationRequested)
        {
            // The page was left while it was reckoning.
            return;
        }
        catch (DbException)
        {
            effect = new(null, [Texts.Correct_EffectFailed]);
        }

        if (preview == _previews)
        {
            _effect = effect;
            StateHasChanged();
        }
    }

    private async Task<CorrectionEffect> EffectAsync(CorrectionView view, CancellationToken cancellationToken)
    {
        if (view.Draft is not { } draft)
        {
            return CorrectionEffect.Unknown;
        }

        var read = new FormReader(view.Words.Format);
        var command = draft.Read(read);
        if (read.HasFaults)
        {
            return new(null, [.. read.Faults.Select(f => view.Words.Sentences.Field(f.Error with { Field = NameAt(view, draft, f.Field) }))]);
        }

        // The reason changes nothing of what follows, and comes last.
        var previewed = await Preview.RunAsync(command with { CorrectionReason = Texts.Correct_Title }, cancellationToken);
        return previewed switch
        {
            { Value: { } outcome } => new(outcome, []),
            { Error: FieldErrors errors } => new(null, [.. errors.Fields.Select(view.Words.Sentences.Field)]),
            { Error: { } error } => new(null, [view.Words.Sentences.Error(error)]),
            _ => CorrectionEffect.Unknown,
        };
    }

    private static string NameAt(CorrectionView view, CorrectionDraft draft, string field) =>
        draft.Rows.FirstOrDefault(r => r.Key == field)?.Name(view.Words.Sentences) ?? field;

    private async Task<Error?> SaveAsync(FormReader read)
    {
        if (_drafted is not { Draft: { } draft })
        {
            return new ReadingNotFound(Id);
        }

        var command = draft.Read(read);
        if (read.HasFaults)
        {
            return null;
        }

        if (draft.IsAsStored(command))
        {
            return new NothingChanged();
        }

        var preview = await Preview.RunAsync(command, CancellationToken.None);
        if (preview.Value is not { } outcome)
        {
            return preview.Error;
        }

        _previews++;
        _effect = new(outcome, []);
        StateHasChanged();
        var asked = draft.Rows.Where(r => r.IsAsked(outcome)).Select(r => new FieldError(r.Key, FieldProblem.NotConfirmed)).ToList();
        return asked.Count > 0
            ? new FieldErrors(asked)
            : (await Handler.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None)).Error;
    }

    private Task<string?> SavedAsync()
    {
        Navigation.NavigateTo(SumpAddress.Of(Tag));
        return Task.FromResult<string?>(null);
    }
}
