using System.Globalization;
using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Shop;

public partial class ShopDocument
{
    [Parameter, EditorRequired] public required ShopVisit Visit { get; set; }

    /// <summary>In the browser's tab.</summary>
    [Parameter, EditorRequired] public required string Title { get; set; }

    [Parameter, EditorRequired] public required string Heading { get; set; }

    [Parameter] public string? Subtitle { get; set; }

    /// <summary>Where the arrow leads; none without it.</summary>
    [Parameter] public string? Back { get; set; }

    /// <summary>Strips between the bar and the contents.</summary>
    [Parameter] public RenderFragment? Above { get; set; }

    [Parameter, EditorRequired] public required RenderFragment ChildContent { get; set; }

    /// <summary>The bar at the bottom edge, with the main act.</summary>
    [Parameter] public RenderFragment? Foot { get; set; }

    /// <summary>Keys above the bar at the bottom edge.</summary>
    [Parameter] public RenderFragment? Dock { get; set; }

    /// <summary>The moment of what the page shows, UTC: the tablet says when it has grown old.</summary>
    [Parameter] public DateTime? AtUtc { get; set; }

    /// <summary>The reading that the page tells of: stored, so that the tablet need not keep it any more.</summary>
    [Parameter] public Guid? Stored { get; set; }

    private string? AtMilliseconds => AtUtc is { } at ? new DateTimeOffset(at, TimeSpan.Zero).ToUnixTimeMilliseconds().ToString(CultureInfo.InvariantCulture) : null;

    private bool IsAtStation => Visit.IsOnStation;

    private string? LocksAfterMilliseconds => IsAtStation ? Visit.LocksAfter.TotalMilliseconds.ToString("0", CultureInfo.InvariantCulture) : null;

    private string File(string file) => Visit.Links.File(Visit.Assets.Route(file));
}
