using System.Globalization;
using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Photos;

namespace ShopFluids.Web.Components.Shared.Photos;

/// <summary>The picture of a photo, turned upright.</summary>
public partial class PhotoPicture
{
    private const int SmallSide = 160;
    private const int LargeSide = 720;

    [Parameter, EditorRequired] public required ListedPhoto Photo { get; set; }

    /// <summary>Of the file.</summary>
    [Parameter, EditorRequired] public required string Address { get; set; }

    /// <summary>Where, when and by whom: what it shows nobody has said.</summary>
    [Parameter, EditorRequired] public required string Alt { get; set; }

    [Parameter] public bool IsLarge { get; set; }

    private int Side => IsLarge ? LargeSide : SmallSide;

    private string? TurnClass => Photo.Orientation == 1 ? null : string.Create(CultureInfo.InvariantCulture, $"turn{Photo.Orientation}");
}
