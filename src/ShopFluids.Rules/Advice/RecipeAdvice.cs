using ShopFluids.Calculations.Mixing;
using ShopFluids.Calculations.Uncertainties;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Judging;

namespace ShopFluids.Rules.Advice;

/// <summary>The top-up recipe that belongs to a reading.</summary>
public static class RecipeAdvice
{
    /// <summary>How old the other half of a pair (level, concentration) may be when a reading measured only one. Common practice, no source.</summary>
    public static readonly TimeSpan OtherHalfMaximumAge = TimeSpan.FromHours(24);

    /// <summary>
    /// The recipe to the full mark at the fluid's target; null when the reading has the latest word on neither level nor concentration,
    /// when the other of them is unknown or too old, when fluid was moved after either was measured, when the level lies outside the sump, or
    /// when a flag says that the fluid is to be drained: concentrate is not poured into what will be thrown away.
    /// </summary>
    /// <param name="input">What the evaluation may look at.</param>
    /// <param name="flags">What the reading did to the flags.</param>
    public static TopUpRecipe? Plan(EvaluationInput input, FlagChanges flags)
    {
        if (flags.MustDrain
            || !(input.IsLatest(ParameterCodes.Level) || input.IsLatest(ParameterCodes.Concentration))
            || Latest(input, ParameterCodes.Level) is not { } measuredLevel
            || Latest(input, ParameterCodes.Concentration) is not { } measuredPercent
            || IsMovedSince(input, measuredLevel.TakenAt < measuredPercent.TakenAt ? measuredLevel.TakenAt : measuredPercent.TakenAt))
        {
            return null;
        }

        var (level, percent) = (measuredLevel.Value, measuredPercent.Value);
        var geometry = input.Sump.Geometry;
        if (level.Value < 0 || level.Value > geometry.BrimMm || percent.Value is < 0 or > 100)
        {
            return null;
        }

        var target = input.Fluid.TargetPercent;
        var band = AcceptedBand(input, target);
        return TopUp.Plan(new TopUpRequest(
            new Estimate(geometry.VolumeLitresAt(level.Value), geometry.SurfaceLitresPerMmAt(level.Value) * level.ExpandedUncertainty),
            percent,
            geometry.VolumeLitresAt(input.Sump.FullMarkMm),
            target,
            input.Fluid.PremixMinimumPercent,
            input.Fluid.PremixMaximumPercent,
            geometry.BrimLitres,
            geometry.VolumeLitresAt(input.Sump.PumpIntakeMm),
            input.Fluid.MeasurableLitres,
            band.Low,
            band.High));
    }

    // What was poured in or taken out since changed both volume and concentration: a recipe from before it would be given twice.
    private static bool IsMovedSince(EvaluationInput input, DateTime measuredAt) => input.Standing.LastMovedAt > measuredAt;

    private static Half? Latest(EvaluationInput input, string parameter) =>
        input.IsLatest(parameter) && input.Reading.Decisive(parameter) is { } now ? new(ToEstimate(now.Value, now.Uncertainty), input.Reading.TakenAt)
        : input.Standing.Latest.TryGetValue(parameter, out var latest) && (input.Reading.TakenAt - latest.TakenAt).Duration() <= OtherHalfMaximumAge
            ? new(ToEstimate(latest.Value, latest.Uncertainty), latest.TakenAt)
            : null;

    private static Estimate ToEstimate(decimal value, decimal uncertainty) => new((double)value, (double)uncertainty);

    // No fluid is thrown away for a concentration whose flag, if any, would clear.
    private static (double? Low, double? High) AcceptedBand(EvaluationInput input, double target)
    {
        var row = input.Limits.FirstOrDefault(l => l.Parameter == ParameterCodes.Concentration && l.Basis == LimitBasis.Value);
        double? low = row?.WarningLow is { } under ? Math.Clamp((double)(under + row.ClearMargin), 0, target) : null;
        double? high = row?.WarningHigh is { } over ? Math.Clamp((double)(over - row.ClearMargin), target, 100) : null;
        return (low, high);
    }

    private sealed record Half(Estimate Value, DateTime TakenAt);
}
