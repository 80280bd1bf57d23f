using Microsoft.AspNetCore.Components;

namespace ShopFluids.Web.Components.Shared;

public partial class SightGlass
{
    private const double BottomY = 79;
    private const double HeightY = 76;

    /// <summary>Share of the brim, 0 to 1; null when nobody knows.</summary>
    [Parameter] public double? Now { get; set; }

    [Parameter, EditorRequired] public double FullMark { get; set; }

    [Parameter, EditorRequired] public double PumpIntake { get; set; }

    /// <summary>The level in words.</summary>
    [Parameter, EditorRequired] public required string Label { get; set; }

    // A hair of fluid and of air stay visible, so that the ends are not mistaken for not measured.
    private static double Top(double share) => BottomY - (HeightY * Math.Clamp(share, 0.01, 1));

    private static string Y(double share) => Svg.Number(Top(share));
}
