using System.Data.Common;
using Microsoft.AspNetCore.Components;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Database;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Care;

/// <summary>Days on which a machine, or the whole shop, stands.</summary>
public sealed partial class ShutdownsPage
{
    private ShutdownDraft _draft = new(Guid.Empty);
    private int _planned;
    private string _said = "";

    [Inject]
    public required PlanShutdownHandler Plan { get; init; }

    [Inject]
    public required EndShutdownHandler End { get; init; }

    [Inject]
    public required ShutdownWorkQuery Work { get; init; }

    protected override async Task<ShutdownsView> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        if (_draft.Id == Guid.Empty)
        {
            _draft = new ShutdownDraft(Clock.NewId());
        }

        return ShutdownsView.Of(words, words.Setup.Calendar.ShopDayOf(Clock.UtcNow), await Work.RunAsync(cancellationToken));
    }

    private async Task<Error?> SaveAsync(FormReader read)
    {
        var command = new PlanShutdown(
            _draft.Id,
            _draft.SumpTag.Length == 0 ? null : _draft.SumpTag,
            read.Day("firstDay", _draft.FirstDay),
            read.Day("lastDay", _draft.LastDay),
            read.Text("reason", _draft.Reason));
        if (read.HasFaults)
        {
            return null;
        }

        var result = await Plan.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None);
        _planned = result.Value?.Tasks ?? 0;
        return result.Error;
    }

    private async Task<string?> SavedAsync()
    {
        (_draft, _said) = (new ShutdownDraft(Guid.Empty), "");
        await LoadAsync();
        var format = (await Session.WordsAsync(Leaving)).Format;
        return _planned == 1 ? Texts.Setup_ShutdownPlannedOne : format.Say(Texts.Setup_ShutdownPlanned, format.Count(_planned));
    }

    /// <returns>Why it was not done; null when it was.</returns>
    private async Task<string?> EndAsync(ShutdownRow row)
    {
        if (!await Session.MayAsync(Policies.CanSupervise))
        {
            return Texts.Setup_MayNot;
        }

        try
        {
            var error = (await End.HandleAsync(new EndShutdown(row.Id), await Session.ActorAsync(), CancellationToken.None)).Error;
            await LoadAsync();
            var words = await Session.WordsAsync(Leaving);
            if (error is not null)
            {
                return words.Sentences.Error(error);
            }

            _said = words.Format.Say(row.State == ShutdownState.Planned ? Texts.Setup_ShutdownSaidWithdrawn : Texts.Setup_ShutdownSaidEnded, row.Name);
            StateHasChanged();
            return null;
        }
        catch (Exception fault) when (fault is DbException or DbUpdateException)
        {
            return Texts.Setup_NotStored;
        }
    }
}
