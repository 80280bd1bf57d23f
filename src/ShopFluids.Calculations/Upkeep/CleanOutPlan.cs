using ShopFluids.Calculations.Mixing;

namespace ShopFluids.Calculations.Upkeep;

/// <summary>A clean-out from the cleaner to the refill.</summary>
/// <param name="CleanerLitres">System cleaner, in measurable steps, L.</param>
/// <param name="RemoveForCleanerLitres">Old fluid to take out first where cleaner would overflow the system, L; waste too.</param>
/// <param name="DrainLitres">First drain: old fluid and cleaner less the heel, L.</param>
/// <param name="RinseLitres">All rinses together, L; each drains as much as it brought.</param>
/// <param name="WasteLitres">All that leaves the machine, L.</param>
/// <param name="OldFluidLeftPercent">Old fluid and cleaner in the machine after the refill, % of the content then.</param>
/// <param name="Refill">The fresh mix.</param>
/// <param name="ExpectedPercent">Concentration after the refill where the heel carries no product, % v/v: the low end of what to expect.</param>
/// <param name="MachineHours">Hours in which the machine cannot cut: drains, rinses, handwork and filling.</param>
/// <param name="CirculationHours">Hours in which the cleaner goes round; by many data sheets the machine may go on working meanwhile.</param>
public sealed record CleanOutPlan(
    double CleanerLitres,
    double RemoveForCleanerLitres,
    double DrainLitres,
    double RinseLitres,
    double WasteLitres,
    double OldFluidLeftPercent,
    FreshMixRecipe Refill,
    double ExpectedPercent,
    double MachineHours,
    double CirculationHours)
{
    private const double MinutesPerHour = 60;

    /// <summary>
    /// Works a clean-out out. Conservation of volume; each rinse mixes fully with the heel and leaves the heel behind, so the old fluid's
    /// share falls by heel / (heel + rinse) each time.
    /// </summary>
    /// <param name="request">The sump and what is to be done.</param>
    public static CleanOutPlan Make(CleanOutRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        var cleaner = Steps.Up(request.ContentLitres * request.CleanerPercent / 100, request.MeasurableLitres);
        var removed = Math.Max(0, request.ContentLitres + cleaner - request.SystemLitres);
        if (removed > request.ContentLitres - request.HeelLitres)
        {
            throw new ArgumentOutOfRangeException(nameof(request), cleaner, "Accepted is a cleaner dose that has room once fluid was removed.");
        }

        var drain = request.ContentLitres - removed + cleaner - request.HeelLitres;
        var rinses = request.Rinses * request.RinseLitres;
        var refill = FreshMix.Plan(request.RefillLitres, request.RefillPercent, request.MeasurableLitres);
        var shareAfterRinses = Math.Pow(request.HeelLitres / (request.HeelLitres + request.RinseLitres), request.Rinses);
        var full = refill.MixedLitres + request.HeelLitres;
        var waste = removed + drain + rinses;
        var minutes = (waste / request.DrainLitresPerMinute) + ((rinses + refill.MixedLitres) / request.FillLitresPerMinute);
        return new(
            cleaner,
            removed,
            drain,
            rinses,
            waste,
            100 * shareAfterRinses * request.HeelLitres / full,
            refill,
            refill.ExpectedPercent * refill.MixedLitres / full,
            (minutes / MinutesPerHour) + (request.Rinses * request.RinseHours) + request.HandHours,
            request.CirculationHours);
    }
}
