using System.Data.Common;
using Microsoft.AspNetCore.Components;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Sumps.Doses;

/// <summary>Notes an additive that was put into a sump, beside its cautions and the doses before it.</summary>
public sealed partial class NoteDosePage
{
    private NoteDose? _refused;
    private DoseDraft? _draft;
    private string _drafted = "";
    private DoseView? _view;
    private NotedDose? _noted;

    // What was done just now: said also where the page cannot be read anew after it.
    private string? _done;

    [Parameter]
    public required string Tag { get; set; }

    [Inject]
    public required DosesQuery Query { get; init; }

    [Inject]
    public required NoteDoseHandler Handler { get; init; }

    [Inject]
    public required StrikeDoseHandler Striker { get; init; }

    protected override string FailedText => _done is { } done ? $"{done} {Texts.Dose_DoneNotLoaded}" : Texts.Dose_Failed;

    private string BackText => string.Format(System.Globalization.CultureInfo.CurrentCulture, Texts.Dose_Back, Tag);

    protected override async Task<DoseView> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        var found = await Query.OfSumpAsync(Tag, cancellationToken);
        if (found.Value is not { } page)
        {
            return new(words, null, null, words.Sentences.Error(found.Error ?? new SumpNotFound(Tag)));
        }

        // What is being typed outlives a second look at the same sump.
        if (_draft is null || _drafted != page.Place.Tag)
        {
            (_draft, _drafted) = (new DoseDraft(Clock.NewId(), page, words.Format), page.Place.Tag);
        }

        _view = new DoseView(words, page, _draft, "") { MaySupervise = await Session.MayAsync(Policies.CanSupervise) };
        return _view;
    }

    private async Task<Error?> SaveAsync(FormReader read)
    {
        if (_draft is null)
        {
            return new SumpNotFound(Tag);
        }

        var command = _draft.Read(read, _drafted);
        if (read.HasFaults)
        {
            return null;
        }

        // A reason is for what its writer was told: after a change of the dose the label speaks first.
        var dose = command with { AgainstLabelReason = null };
        var result = await Handler.HandleAsync(dose == _refused ? command : dose, await Session.ActorAsync(), await Session.MayAsync(Policies.CanSupervise), CancellationToken.None);
        _noted = result.Value;
        _draft.IsAgainstLabel = result.Error is FieldErrors errors && errors.Fields.Any(DoseChecks.IsAgainstLabel);
        _refused = _draft.IsAgainstLabel ? dose : null;
        return result.Error;
    }

    private async Task<string?> SavedAsync()
    {
        _done = _noted is { } noted ? _view?.Said(noted) : null;
        _draft = null;
        await LoadAsync();
        return _done;
    }

    private async Task<string?> StrikeAsync(Guid doseId, string reason)
    {
        if (!await Session.MayAsync(Policies.CanSupervise))
        {
            return Texts.Setup_MayNot;
        }

        try
        {
            var result = await Striker.HandleAsync(new StrikeDose(Clock.NewId(), doseId, reason), await Session.ActorAsync(), CancellationToken.None);
            if (result.Error is { } error)
            {
                return _view?.Words.Sentences.Error(error);
            }
        }
        catch (Exception fault) when (fault is DbException or DbUpdateException)
        {
            return Texts.Setup_NotStored;
        }

        _done = Texts.Dose_StruckNow;
        await LoadAsync();
        return null;
    }
}
