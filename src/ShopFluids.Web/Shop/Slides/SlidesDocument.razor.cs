using System.Globalization;
using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Slides;

namespace ShopFluids.Web.Shop.Slides;

public partial class SlidesDocument
{
    [Parameter, EditorRequired] public required SlideView View { get; set; }

    /// <summary>Nothing was sent yet: the tablet gives each form an id of its own.</summary>
    private string? Fresh => View.Notice is null ? "" : null;

    private bool IsTooEarly(ListedSlide slide) => View.Page.NowUtc < slide.ReadFromUtc;

    private static string Milliseconds(DateTime atUtc) => new DateTimeOffset(atUtc, TimeSpan.Zero).ToUnixTimeMilliseconds().ToString(CultureInfo.InvariantCulture);

    private static string ValueId(ListedSlide slide) => $"value-{slide.Id:N}";

    private static string ReasonId(ListedSlide slide) => $"reason-{slide.Id:N}";
}
