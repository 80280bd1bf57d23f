using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Board;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Wall;

public sealed partial class WallScreen
{
    private const int MostTags = 8;
    private const int MostStations = 2;

    [Parameter, EditorRequired]
    public required WallView View { get; set; }

    /// <summary>Another one, and the page is loaded anew: its script and its style may have changed with the program.</summary>
    private static string Build { get; } = typeof(WallScreen).Assembly.ManifestModule.ModuleVersionId.ToString("N");

    private IEnumerable<IGrouping<SumpState, BoardRow>> Groups => View.Turn.Others.GroupBy(r => r.Standing.State).OrderBy(g => g.Key);

    private static string StandingWord(BoardRow row) => row.Standing.IsLate ? Texts.Verdict_Overdue : Sentences.Verdict(row.Standing.Verdict, row.Standing.Direction);
}
