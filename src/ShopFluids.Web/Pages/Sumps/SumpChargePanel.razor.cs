using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Sumps;

namespace ShopFluids.Web.Pages.Sumps;

/// <summary>What is in the sump and which lots it came from.</summary>
public sealed partial class SumpChargePanel
{
    [Parameter, EditorRequired]
    public required SumpView View { get; set; }

    private IReadOnlyList<(HistoryLot Lot, decimal Litres)> Lots =>
        [.. View.Page.History.Movements
            .SelectMany(m => m.Lot is { } lot ? new[] { (Lot: lot, m.ConcentrateLitres) } : [])
            .GroupBy(m => m.Lot.Id)
            .Select(g => (g.First().Lot, g.Sum(m => m.ConcentrateLitres)))];
}
