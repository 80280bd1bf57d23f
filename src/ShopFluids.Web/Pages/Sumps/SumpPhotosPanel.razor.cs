using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Photos;

namespace ShopFluids.Web.Pages.Sumps;

/// <summary>Photos taken with the readings since the fill, newest first; few at once, for each is read whole.</summary>
public sealed partial class SumpPhotosPanel
{
    private const int Few = 6;
    private bool _showsAll;

    [Parameter, EditorRequired]
    public required SumpView View { get; set; }

    private IEnumerable<ListedPhoto> Shown => _showsAll ? View.Page.Photos : View.Page.Photos.Take(Few);
}
