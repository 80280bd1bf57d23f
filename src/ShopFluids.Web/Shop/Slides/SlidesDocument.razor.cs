using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Slides;

namespace ShopFluids.Web.Shop.Slides;

public partial class SlidesDocument
{
    [Parameter, EditorRequired] public required SlideView View { get; set; }

    private bool MayRead(ListedSlide slide) => View.Visit.CanOperate && View.Page.NowUtc >= slide.ReadFromUtc;

    private static string ValueId(ListedSlide slide) => $"value-{slide.Id:N}";

    private static string ReasonId(ListedSlide slide) => $"reason-{slide.Id:N}";
}
