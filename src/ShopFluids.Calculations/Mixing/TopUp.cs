using System.Runtime.InteropServices;
using ShopFluids.Calculations.Uncertainties;

namespace ShopFluids.Calculations.Mixing;

/// <summary>
/// The top-up recipe. Volumes are additive and concentrate counts as 100 % product. With A = V₁ − V₀ and X = c_t V₁ − c₀ V₀ the premix
/// that reaches the target is m = X / A; above m_max fluid R = (c_t V₁ − c₀ V₀ − m_max A) / (m_max − c₀) is removed first; below m_min
/// the weakest premix is added and ends high, or R' = (c₀ V₀ + m_min A − c_t V₁) / (c₀ − m_min) is removed for an exact hit. Without
/// room, but off the target, what is left of the old fluid is L = V₁ (c_t − m) / (c₀ − m) and R = V₀ − L: an overfull sump ends at V₁, a
/// sump less than one step short of it keeps its level. Mass balance; the practice of correcting with premix instead of
/// neat concentrate or plain water is UKLA/HSE guidance.
/// </summary>
public static class TopUp
{
    /// <summary>
    /// Works out the recipe. Amounts are whole measurable steps, never negative; nothing that is added brings the sump past the wanted
    /// volume, and no removal brings it below its pump intake.
    /// </summary>
    /// <param name="request">The sump and what it shall hold, within the ranges of its record.</param>
    public static TopUpRecipe Plan(TopUpRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        var withoutRemoval = Fill(request, removed: 0, request.TargetVolumeLitres);
        return withoutRemoval.Litres > 0 ? WithRoom(request, withoutRemoval) : AtLevel(request);
    }

    private static TopUpRecipe WithRoom(TopUpRequest request, Premix premix)
    {
        var (volume, percent) = (request.VolumeLitres.Value, request.ConcentrationPercent.Value);
        var room = request.TargetVolumeLitres - volume;
        var wanted = (request.TargetPercent * request.TargetVolumeLitres) - (percent * volume);
        var missing = wanted - (request.PremixMaximumPercent * room);
        var excess = (request.PremixMinimumPercent * room) - wanted;
        if (missing > Noise(request))
        {
            var remove = RemoveForTarget(request, missing / (request.PremixMaximumPercent - percent));
            var plain = Recipe(request, TopUpCase.TopUp, 0, premix, remove);
            return plain.ExpectedPercent >= AcceptedMinimum(request)
                ? plain with { RemoveForExactLitres = plain.ExpectedPercent < request.TargetPercent ? plain.RemoveForExactLitres : null }
                : Remove(request, TopUpCase.RemoveFirst, remove, request.TargetVolumeLitres);
        }

        if (excess > Noise(request))
        {
            var remove = RemoveForTarget(request, excess / (percent - request.PremixMinimumPercent));
            var plain = Recipe(request, TopUpCase.TopUpEndsHigh, 0, premix, remove);
            return plain.EndsHighByPercent > 0 ? plain : plain with { Case = TopUpCase.TopUp, RemoveForExactLitres = null };
        }

        return Recipe(request, TopUpCase.TopUp, 0, premix, default);
    }

    private static TopUpRecipe AtLevel(TopUpRequest request)
    {
        var (volume, percent) = (request.VolumeLitres.Value, request.ConcentrationPercent.Value);
        if (percent >= AcceptedMinimum(request) && percent <= AcceptedMaximum(request))
        {
            return Recipe(request, TopUpCase.NothingToAdd, 0, default, default);
        }

        var refill = percent < request.TargetPercent ? request.PremixMaximumPercent : request.PremixMinimumPercent;
        var level = Math.Min(volume, request.TargetVolumeLitres);
        var left = level - Swap.LitresToExchange(level, percent, refill, request.TargetPercent);
        return Remove(request, TopUpCase.SwapAtLevel, RemoveForTarget(request, volume - left), level);
    }

    private static TopUpRecipe Remove(TopUpRequest request, TopUpCase wanted, Removal removal, double level) =>
        Recipe(
            request,
            removal.IsPossible ? wanted : TopUpCase.NoRemovalPossible,
            removal.Litres,
            Fill(request, removal.Litres, level),
            default);

    // Rounded up, so that the refill still reaches the target; down to what the pump allows where that is less.
    private static Removal RemoveForTarget(TopUpRequest request, double litres)
    {
        var wanted = Steps.Up(litres, request.MeasurableLitres);
        var allowed = Steps.Down(Math.Max(0, request.VolumeLitres.Value - request.PumpIntakeLitres), request.MeasurableLitres);
        return wanted <= allowed ? new(wanted, IsPossible: true) : new(allowed, IsPossible: false);
    }

    // The premix that brings what is left to the level and as near to the target as the premix limits allow. Rounded down: the full
    // mark, or the brim, is not passed by what the shop cannot measure.
    private static Premix Fill(TopUpRequest request, double removed, double level)
    {
        var (step, left) = (request.MeasurableLitres, request.VolumeLitres.Value - removed);
        var litres = Steps.Down(Math.Max(0, level - left), step);
        var (least, most) = (request.PremixMinimumPercent * litres / 100, request.PremixMaximumPercent * litres / 100);
        var ideal = ((request.TargetPercent * (left + litres)) - (request.ConcentrationPercent.Value * left)) / 100;
        return new(Measured(Math.Clamp(ideal, least, most), least, most, step), litres);
    }

    // The nearest step; where that leaves the premix limits, the next step within them, if there is one.
    private static double Measured(double concentrate, double least, double most, double step)
    {
        var (nearest, down, up) = (Steps.Nearest(concentrate, step), Steps.Down(most, step), Steps.Up(least, step));
        return down < up ? nearest : Math.Clamp(nearest, up, down);
    }

    private static TopUpRecipe Recipe(TopUpRequest request, TopUpCase kind, double removed, Premix premix, Removal removalForExact)
    {
        var percent = request.ConcentrationPercent.Value;
        var left = request.VolumeLitres.Value - removed;
        var litres = left + premix.Litres;
        var expected = premix.Litres > 0 ? ((percent * left) + (100 * premix.ConcentrateLitres)) / litres : percent;

        // The full mark is one step up at least: there is always some fluid in the end.
        var uncertainty = Gum.CoverageFactor * Gum.FirstOrder(
            (left / litres, request.ConcentrationPercent.StandardUncertainty),
            ((percent - expected) / litres, request.VolumeLitres.StandardUncertainty));
        var endsHigh = kind is TopUpCase.TopUpEndsHigh or TopUpCase.NoRemovalPossible;
        return new(
            kind,
            premix.ConcentrateLitres,
            Math.Round(premix.Litres - premix.ConcentrateLitres, 10),
            removed,
            premix.Litres > 0 ? 100 * premix.ConcentrateLitres / premix.Litres : 0,
            litres,
            expected,
            uncertainty,
            endsHigh ? Math.Max(0, expected - request.TargetPercent) : 0,
            removalForExact is { IsPossible: true, Litres: > 0 } ? removalForExact.Litres : null);
    }

    private static double AcceptedMinimum(TopUpRequest request) =>
        request.AcceptedMinimumPercent ?? request.TargetPercent - request.ConcentrationPercent.ExpandedUncertainty;

    private static double AcceptedMaximum(TopUpRequest request) =>
        request.AcceptedMaximumPercent ?? request.TargetPercent + request.ConcentrationPercent.ExpandedUncertainty;

    // Percent litres that come from binary rounding alone: a premix exactly on its limit is within it.
    private static double Noise(TopUpRequest request) => 1e-9 * request.BrimLitres;

    [StructLayout(LayoutKind.Auto)]
    private readonly record struct Premix(double ConcentrateLitres, double Litres);

    [StructLayout(LayoutKind.Auto)]
    private readonly record struct Removal(double Litres, bool IsPossible);
}
