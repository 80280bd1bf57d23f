using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Shop.Skips;

public partial class SkipDocument
{
    [Parameter, EditorRequired] public required SkipView View { get; set; }

    private string Title => View.IsFinish || View.Stops.Count != 1 ? Texts.Round_Finish : View.Visit.Say(Texts.Round_SkipTitle, View.Stops[0].Place.Tag);

    private string Why => View.Stops.Count == 1 ? Texts.Round_SkipWhy : Texts.Round_FinishWhy;

    private string? ReasonFault => View.FaultAt(SkipStopsHandler.ReasonField);

    private string? WordsFault => View.FaultAt(SkipStopsHandler.WordsField);
}
