using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Board;
using ShopFluids.Rules.MassBalance;
using ShopFluids.Rules.UnusualLoss;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Board.Work;

/// <summary>An open flag with its reason, and the way to close it.</summary>
public sealed partial class FlagItem
{
    [Parameter, EditorRequired]
    public required BoardFlag Flag { get; set; }

    [Parameter, EditorRequired]
    public required string SumpTag { get; set; }

    [Parameter, EditorRequired]
    public required DeskWords Words { get; set; }

    [Parameter, EditorRequired]
    public required DateTime NowUtc { get; set; }

    [Parameter, EditorRequired]
    public required bool MayAct { get; set; }

    [Parameter, EditorRequired]
    public required EventCallback Changed { get; set; }

    [Inject]
    public required WorkActs Acts { get; init; }

    // What such a flag found is part of a whole, and the whole stands on the sump's page.
    private bool IsOfLosses => Flag.Rule is BalanceRule.RuleCode or UnusualLossRule.RuleCode;

    private async Task<string?> CloseAsync(string reason)
    {
        var fault = await Acts.CloseAsync(Flag.Id, reason, Words.Sentences, CancellationToken.None);
        if (fault is null)
        {
            await Changed.InvokeAsync();
        }

        return fault;
    }
}
