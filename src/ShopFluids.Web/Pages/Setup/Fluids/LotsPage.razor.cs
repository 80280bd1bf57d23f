using System.Data.Common;
using Microsoft.AspNetCore.Components;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Fluids;

public sealed record LotsView(DeskWords Words, IReadOnlyList<LotRow> Lots)
{
    /// <summary>Those that may be used first, in the order of their use.</summary>
    public IReadOnlyList<LotRow> Ordered { get; } = [.. Lots.OrderBy(l => l.IsUsable ? 0 : l.RemainingLitres > 0 ? 1 : 2)];

    public IReadOnlyList<Choice> Fluids => [.. Words.Setup.Fluids.Select(f => new Choice(f.Id.ToString(), f.Name))];
}

/// <summary>Receipts into the stores, quarantine and release.</summary>
public sealed partial class LotsPage
{
    private LotDraft _draft = new(Guid.Empty);
    private string _said = "";

    [Inject]
    public required LotsQuery Lots { get; init; }

    [Inject]
    public required ReceiveLotHandler Receive { get; init; }

    [Inject]
    public required QuarantineLotHandler Quarantine { get; init; }

    protected override async Task<LotsView> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        if (_draft.Id == Guid.Empty)
        {
            _draft = new LotDraft(Clock.NewId()) { ReceivedOn = DayInput.Write(words.Setup.Calendar.ShopDayOf(Clock.UtcNow)) };
        }

        return new LotsView(words, await Lots.RunAsync(cancellationToken));
    }

    private void ChooseFluid(string id, LotsView view)
    {
        _draft.FluidId = id;
        ProposeExpiry(view);
    }

    private void ChooseReceipt(string day, LotsView view)
    {
        _draft.ReceivedOn = day;
        ProposeExpiry(view);
    }

    private void ProposeExpiry(LotsView view)
    {
        if (view.Words.Setup.Fluids.FirstOrDefault(f => f.Id.ToString() == _draft.FluidId) is { } fluid)
        {
            _draft.ProposeExpiry(fluid.ShelfLifeDays);
        }
    }

    private async Task<Error?> SaveAsync(FormReader read)
    {
        var command = new ReceiveLot(
            _draft.Id,
            read.Id("fluid", _draft.FluidId),
            read.Text("number", _draft.Number),
            read.Day("receivedOn", _draft.ReceivedOn),
            read.Day("expiresOn", _draft.ExpiresOn),
            read.Number("litres", _draft.Litres),
            read.OptionalNumber("pricePerLitre", _draft.Price));
        return read.HasFaults ? null : (await Receive.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None)).Error;
    }

    private async Task<string?> SavedAsync()
    {
        var number = _draft.Number.Trim();
        (_draft, _said) = (new LotDraft(Guid.Empty), "");
        await LoadAsync();
        return (await Session.WordsAsync(Leaving)).Format.Say(Texts.Setup_Added, number);
    }

    private async Task<string?> QuarantineAsync(LotRow lot, string reason) => await ChangeAsync(new QuarantineLot(lot.Id, reason), lot, Texts.Setup_QuarantineSaid);

    private async Task ReleaseAsync(LotRow lot) => _said = await ChangeAsync(new QuarantineLot(lot.Id, null), lot, Texts.Setup_ReleaseSaid) ?? _said;

    /// <returns>Why it was not done; null when it was, and then it is said on the page.</returns>
    private async Task<string?> ChangeAsync(QuarantineLot command, LotRow lot, string said)
    {
        if (!await Session.MayAsync(Policies.CanSupervise))
        {
            return Texts.Setup_MayNot;
        }

        try
        {
            var words = await Session.WordsAsync(Leaving);
            if ((await Quarantine.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None)).Error is { } error)
            {
                return words.Sentences.Error(error);
            }

            _said = words.Format.Say(said, lot.Number);
            await LoadAsync();
            return null;
        }
        catch (Exception fault) when (fault is DbException or DbUpdateException)
        {
            return Texts.Setup_NotStored;
        }
    }
}
