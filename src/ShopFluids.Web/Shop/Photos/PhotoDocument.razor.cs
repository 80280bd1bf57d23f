using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Photos;

namespace ShopFluids.Web.Shop.Photos;

public partial class PhotoDocument
{
    [Parameter, EditorRequired] public required ShopVisit Visit { get; set; }

    [Parameter, EditorRequired] public required ShownPhoto Shown { get; set; }

    private string Subtitle => string.Join(" · ", new[] { Visit.Format.DayAndTime(Shown.Photo.TakenAtUtc), Shown.Photo.By }.Where(s => s.Length > 0));
}
