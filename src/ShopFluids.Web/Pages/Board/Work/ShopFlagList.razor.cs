using Microsoft.AspNetCore.Components;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Board.Work;

/// <summary>What is open on lots, stocks and instruments, and the way to answer it.</summary>
public sealed partial class ShopFlagList
{
    [Parameter, EditorRequired]
    public required IReadOnlyList<ListedShopFlag> Flags { get; set; }

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

    private async Task<string?> AnswerAsync(ListedShopFlag flag, string answer)
    {
        var fault = await Acts.AnswerAsync(flag.Id, answer, Words.Sentences, CancellationToken.None);
        if (fault is null)
        {
            await Changed.InvokeAsync();
        }

        return fault;
    }
}
