namespace ShopFluids.Calculations.Skimming;

/// <summary>How long a skimmer has to run.</summary>
/// <param name="OilLitresPerDay">Oil that reaches the surface, L/day.</param>
/// <param name="HoursPerDay">Hours a day that the skimmer must run to take it off; above 24 it cannot.</param>
/// <param name="EmulsifiedLitresPerDay">Oil that gets into the sump but is worked in and never rises, L/day.</param>
public sealed record SkimmerDuty(double OilLitresPerDay, double HoursPerDay, double EmulsifiedLitresPerDay)
{
    private const double HoursOfADay = 24;

    /// <summary>Whether the hours of the day are enough.</summary>
    public bool IsEnough => HoursPerDay <= HoursOfADay;

    /// <summary>
    /// t = o s (1 − e) / r from the way-oil use, which the lubricator's refills tell. Conservation; the shares are estimates (common practice, no source).
    /// </summary>
    /// <param name="wayOilLitresPerDay">o, way oil used, 0 to 10 000 L/day.</param>
    /// <param name="shareReachingSump">s, 0 to 1; 1 where no one knows better.</param>
    /// <param name="shareEmulsified">e, part of it that is worked in and does not rise, 0 to 1.</param>
    /// <param name="skimmerLitresOfOilPerHour">r, oil (not fluid) that the skimmer takes off, 0.0001 to 100 000 L/h.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static SkimmerDuty FromWayOil(double wayOilLitresPerDay, double shareReachingSump, double shareEmulsified, double skimmerLitresOfOilPerHour)
    {
        var reaching = Require.Between(wayOilLitresPerDay, 0, 10_000, "L/day") * Require.Between(shareReachingSump, 0, 1, "(share)");
        var emulsified = reaching * Require.Between(shareEmulsified, 0, 1, "(share)");
        var rising = reaching - emulsified;
        return new(rising, rising / Require.Between(skimmerLitresOfOilPerHour, 0.0001, 100_000, "L/h"), emulsified);
    }
}
