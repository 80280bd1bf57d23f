using System.Runtime.InteropServices;
using ShopFluids.Calculations.Volumes;

namespace ShopFluids.Calculations.Flow;

/// <summary>A flow, 0 to 10 000 000 L/min. The default value is 0. Conversions are exact by definition of the gallons.</summary>
[StructLayout(LayoutKind.Auto)]
public readonly record struct FlowRate
{
    /// <summary>Largest flow taken, L/min.</summary>
    public const double MaximumLitresPerMinute = 10_000_000;

    private const double LitresPerCubicMetre = 1000;
    private const double MinutesPerHour = 60;
    private const double SecondsPerMinute = 60;

    private FlowRate(double litresPerMinute) => LitresPerMinute = litresPerMinute;

    /// <summary>L/min.</summary>
    public double LitresPerMinute { get; }

    /// <summary>L/s.</summary>
    public double LitresPerSecond => LitresPerMinute / SecondsPerMinute;

    /// <summary>L/h.</summary>
    public double LitresPerHour => LitresPerMinute * MinutesPerHour;

    /// <summary>m³/h.</summary>
    public double CubicMetresPerHour => LitresPerMinute * MinutesPerHour / LitresPerCubicMetre;

    /// <summary>US gallons per minute.</summary>
    public double UsGallonsPerMinute => LitresPerMinute / VolumeUnits.LitresPerUsGallon;

    /// <summary>US gallons per hour.</summary>
    public double UsGallonsPerHour => LitresPerMinute * MinutesPerHour / VolumeUnits.LitresPerUsGallon;

    /// <summary>Imperial gallons per minute.</summary>
    public double ImperialGallonsPerMinute => LitresPerMinute / VolumeUnits.LitresPerImperialGallon;

    /// <summary>From L/min.</summary>
    /// <param name="litresPerMinute">0 to 10 000 000 L/min.</param>
    /// <exception cref="ArgumentOutOfRangeException">The flow is out of its range.</exception>
    public static FlowRate FromLitresPerMinute(double litresPerMinute) => new(Require.Between(litresPerMinute, 0, MaximumLitresPerMinute, "L/min"));

    /// <summary>From L/s.</summary>
    /// <param name="litresPerSecond">0 up to 10 000 000 L/min.</param>
    /// <exception cref="ArgumentOutOfRangeException">The flow is out of its range.</exception>
    public static FlowRate FromLitresPerSecond(double litresPerSecond) => From(litresPerSecond, SecondsPerMinute, "L/s", nameof(litresPerSecond));

    /// <summary>From m³/h.</summary>
    /// <param name="cubicMetresPerHour">0 up to 10 000 000 L/min.</param>
    /// <exception cref="ArgumentOutOfRangeException">The flow is out of its range.</exception>
    public static FlowRate FromCubicMetresPerHour(double cubicMetresPerHour) =>
        From(cubicMetresPerHour, LitresPerCubicMetre / MinutesPerHour, "m³/h", nameof(cubicMetresPerHour));

    /// <summary>From US gallons per minute.</summary>
    /// <param name="usGallonsPerMinute">0 up to 10 000 000 L/min.</param>
    /// <exception cref="ArgumentOutOfRangeException">The flow is out of its range.</exception>
    public static FlowRate FromUsGallonsPerMinute(double usGallonsPerMinute) =>
        From(usGallonsPerMinute, VolumeUnits.LitresPerUsGallon, "US gal/min", nameof(usGallonsPerMinute));

    /// <summary>From US gallons per hour.</summary>
    /// <param name="usGallonsPerHour">0 up to 10 000 000 L/min.</param>
    /// <exception cref="ArgumentOutOfRangeException">The flow is out of its range.</exception>
    public static FlowRate FromUsGallonsPerHour(double usGallonsPerHour) =>
        From(usGallonsPerHour, VolumeUnits.LitresPerUsGallon / MinutesPerHour, "US gal/h", nameof(usGallonsPerHour));

    /// <summary>From imperial gallons per minute.</summary>
    /// <param name="imperialGallonsPerMinute">0 up to 10 000 000 L/min.</param>
    /// <exception cref="ArgumentOutOfRangeException">The flow is out of its range.</exception>
    public static FlowRate FromImperialGallonsPerMinute(double imperialGallonsPerMinute) =>
        From(imperialGallonsPerMinute, VolumeUnits.LitresPerImperialGallon, "imperial gal/min", nameof(imperialGallonsPerMinute));

    private static FlowRate From(double value, double litresPerMinute, string unit, string name) =>
        new(Math.Min(Require.Between(value, 0, MaximumLitresPerMinute / litresPerMinute, unit, name) * litresPerMinute, MaximumLitresPerMinute));
}
