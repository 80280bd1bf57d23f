using ShopFluids.Calculations.Upkeep;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Sumps;

namespace ShopFluids.Core.CleanOuts;

/// <summary>What a choice comes to: the plan of the calculations for a sump and its fluid.</summary>
public static class CleanOutNumbers
{
    // Only the hours in which the machine stands hang on these, and a procedure has its own clock.
    private const double AnyFlow = 30;

    /// <summary>Of the full volume: what stays in low spots and lines, and each rinse. Common practice, no source.</summary>
    private const double UsualHeelShare = 0.05;
    private const double UsualRinseShare = 0.2;

    // Coarser, the rounding up would make cleaner of a small sump.
    private const double CoarsestShare = 0.1;
    private const decimal UsualCleanerPercent = 2;
    private const decimal UsualCirculationHours = 12;
    private const int UsualRinses = 2;

    /// <summary>More than half of it left behind would be no draining.</summary>
    public static double MostHeelLitres(double contentLitres, Sump sump) => Math.Min(contentLitres, FullLitres(sump)) / 2;

    public static double FullLitres(Sump sump)
    {
        ArgumentNullException.ThrowIfNull(sump);
        return sump.Geometry.VolumeLitresAt((double)sump.FullMarkMm);
    }

    /// <summary>The choice that stands ready where this sump was never cleaned out step by step before.</summary>
    /// <param name="sump">The sump.</param>
    /// <param name="volumeLitres">What it holds now; null when nobody knows.</param>
    /// <param name="before">The choice of the last time, which is kept but for the volume.</param>
    public static CleanOutChoice Usual(Sump sump, double? volumeLitres, CleanOutChoice? before)
    {
        ArgumentNullException.ThrowIfNull(sump);
        var full = FullLitres(sump);
        var content = volumeLitres is > 0 and { } known ? known : full;
        var usual = before ?? new(0, Whole(full * UsualHeelShare), UsualCleanerPercent, UsualCirculationHours, UsualRinses, Whole(full * UsualRinseShare));
        return usual with
        {
            ContentLitres = (decimal)Math.Round(Math.Min(content, sump.Geometry.BrimLitres), 1, MidpointRounding.ToZero),
            HeelLitres = Math.Min(usual.HeelLitres, (decimal)Math.Round(MostHeelLitres(content, sump), 1, MidpointRounding.ToZero)),
        };
    }

    /// <summary>The plan of a choice that <see cref="CleanOutChecks"/> accepts.</summary>
    public static CleanOutPlan Of(CleanOutChoice choice, Sump sump, Fluid fluid, decimal measurableLitres)
    {
        ArgumentNullException.ThrowIfNull(choice);
        ArgumentNullException.ThrowIfNull(sump);
        ArgumentNullException.ThrowIfNull(fluid);
        var heel = (double)choice.HeelLitres;
        var refill = FullLitres(sump) - heel;
        return CleanOutPlan.Make(new(
            (double)choice.ContentLitres,
            sump.Geometry.BrimLitres,
            heel,
            (double)choice.CleanerPercent,
            (double)choice.CirculationHours,
            choice.Rinses,
            (double)choice.RinseLitres,
            0,
            refill,
            (double)fluid.TargetPercent,
            AnyFlow,
            AnyFlow,
            0,
            Math.Min((double)measurableLitres, refill * CoarsestShare)));
    }

    private static decimal Whole(double litres) => Math.Max(1, (decimal)Math.Round(litres, MidpointRounding.AwayFromZero));
}
