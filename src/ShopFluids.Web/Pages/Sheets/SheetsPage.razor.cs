using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Sheets;

/// <summary>Everything that can be printed, each with what it has to be told.</summary>
public sealed partial class SheetsPage
{
    [Inject]
    public required LotsQuery Lots { get; init; }

    protected override string FailedText => Texts.Sheet_ChoiceFailed;

    protected override async Task<SheetChoice> ReadAsync(DeskWords words, CancellationToken cancellationToken) =>
        SheetChoice.Of(words.Setup, words.Format, words.Setup.Calendar.ShopDayOf(Clock.UtcNow), await Lots.RunAsync(cancellationToken));
}
