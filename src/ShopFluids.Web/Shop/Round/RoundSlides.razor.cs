using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Shop.Round;

public partial class RoundSlides
{
    [Parameter, EditorRequired] public required ShopVisit Visit { get; set; }

    [Parameter, EditorRequired] public required IReadOnlyList<RoundSlide> Slides { get; set; }

    [Parameter, EditorRequired] public required DateTime NowUtc { get; set; }

    private string Words(RoundSlide slide) =>
        NowUtc < slide.ReadFromUtc ? Visit.Say(Texts.Round_SlideFrom, Visit.Format.Time(slide.ReadFromUtc))
        : Visit.Format.Late(slide.ReadUntilUtc, NowUtc) ?? Visit.Say(Texts.Round_SlideNow, Visit.Format.DayAndTime(slide.ReadUntilUtc));
}
