using System.Data.Common;
using Microsoft.AspNetCore.Components;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Stores;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Fields;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Stores;

/// <param name="View">Null where there is no such lot.</param>
public sealed record FoundLot(LotView? View);

/// <summary>One lot: which machines ran on it between two days and what else went in, its counts, and what is left of it.</summary>
public sealed partial class LotPage
{
    private NumberBox _counted = new(QuantityKind.Volume);
    private string _reason = "";
    private Guid _adjustmentId;

    [Parameter]
    public Guid Id { get; set; }

    [SupplyParameterFromQuery(Name = StoresAddress.FromField)]
    public string? From { get; set; }

    [SupplyParameterFromQuery(Name = StoresAddress.ToField)]
    public string? To { get; set; }

    [Inject]
    public required LotTraceQuery Query { get; init; }

    [Inject]
    public required AdjustLotHandler Adjust { get; init; }

    protected override string FailedText => Texts.Stores_Failed;

    protected override async Task<FoundLot> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        if (_adjustmentId == Guid.Empty)
        {
            _adjustmentId = Clock.NewId();
        }

        return new(await Query.OfLotAsync(Id, Day(From), Day(To), cancellationToken) is { } trace ? new(trace, words, await Session.MayAsync(Policies.CanSupervise)) : null);
    }

    private static DateOnly? Day(string? text) => DayInput.TryRead(text ?? "", out var day) ? day : null;

    private void Look(string field, ChangeEventArgs e) =>
        Navigation.NavigateTo(Navigation.GetUriWithQueryParameter(field, string.IsNullOrWhiteSpace(e.Value as string) ? null : (string)e.Value));

    private async Task<Error?> CountAsync(FormReader read)
    {
        var command = new AdjustLot(_adjustmentId, Id, AdjustmentKind.Counted, read.Number("countedLitres", _counted), read.Text("reason", _reason));
        return read.HasFaults ? null : (await Adjust.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None)).Error;
    }

    private async Task<string?> SavedAsync()
    {
        await BeginAnewAsync();
        return Texts.Stores_CountSaved;
    }

    private async Task<string?> DiscardAsync(string reason)
    {
        if (!await Session.MayAsync(Policies.CanSupervise))
        {
            return Texts.Setup_MayNot;
        }

        try
        {
            var words = await Session.WordsAsync(Leaving);
            if ((await Adjust.HandleAsync(new AdjustLot(_adjustmentId, Id, AdjustmentKind.Discarded, 0, reason), await Session.ActorAsync(), CancellationToken.None)).Error is { } error)
            {
                return words.Sentences.Error(error);
            }

            await BeginAnewAsync();
            return null;
        }
        catch (Exception fault) when (fault is DbException or DbUpdateException)
        {
            return Texts.Setup_NotStored;
        }
    }

    private Task BeginAnewAsync()
    {
        (_adjustmentId, _counted, _reason) = (Guid.Empty, new(QuantityKind.Volume), "");
        return LoadAsync();
    }
}
