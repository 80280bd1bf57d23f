using System.Runtime.InteropServices;
using ShopFluids.Calculations.Electrodes;

namespace ShopFluids.Rules.InstrumentCheck;

/// <summary>One standard of a check, and what the instrument showed in it.</summary>
/// <param name="Standard">What the standard is: °Brix (0 is water), or pH at its temperature.</param>
/// <param name="Shown">What the instrument showed, on its own scale or in millivolts.</param>
[StructLayout(LayoutKind.Auto)]
public readonly record struct CheckPoint(decimal Standard, decimal Shown);

/// <summary>What a check tells of an instrument.</summary>
/// <param name="Passes">Whether it may go on being used.</param>
/// <param name="Offset">On the instrument's scale what it showed too much in the first standard; in millivolts the voltage at pH 7. Null without a standard.</param>
/// <param name="SlopePercent">How far it goes for what it should, %; null without a second standard.</param>
public sealed record CheckResult(bool Passes, decimal? Offset, decimal? SlopePercent);

/// <summary>Judges an instrument by one or two standards.</summary>
public static class CheckJudge
{
    /// <summary>Two standards must differ by so much, in pH or °Brix, to tell of a slope; of buffers as <see cref="ElectrodeCheck"/> asks.</summary>
    public const decimal LeastDistance = 1m;

    private static readonly ElectrodeLimits Limits = new();

    /// <summary>
    /// By what it shows on its own scale: it passes where it is off by no more than its stated accuracy and half of the step that can be read.
    /// Conformity with the maker's statement; common practice, no source. Of water, 0 °Brix by definition.
    /// </summary>
    /// <param name="points">None to two; without one nothing speaks against the instrument.</param>
    /// <param name="accuracy">Its stated accuracy, half width, 0 or more.</param>
    /// <param name="resolution">The smallest step that can be read, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">More than two standards, or two that are too near each other.</exception>
    public static CheckResult OnScale(IReadOnlyList<CheckPoint> points, decimal accuracy, decimal resolution)
    {
        ArgumentNullException.ThrowIfNull(points);
        var accepted = accuracy + (resolution / 2);
        var passes = points.All(p => Math.Abs(p.Shown - p.Standard) <= accepted);
        return points switch
        {
            [] => new(passes, null, null),
            [var only] => new(passes, only.Shown - only.Standard, null),
            [var first, var second] when Math.Abs(second.Standard - first.Standard) >= LeastDistance =>
                new(passes, first.Shown - first.Standard, Rounded(100 * (second.Shown - first.Shown) / (second.Standard - first.Standard))),
            _ => throw new ArgumentOutOfRangeException(nameof(points), points.Count, "Accepted are none to two standards, 1 apart at least."),
        };
    }

    /// <summary>A pH electrode by the millivolts in two buffers; the limits are those of <see cref="ElectrodeLimits"/>.</summary>
    /// <param name="first">One buffer.</param>
    /// <param name="second">The other, 1 pH away at least.</param>
    /// <param name="celsius">Temperature of both, 0 to 100 °C.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range, or the buffers are too near each other.</exception>
    public static CheckResult InMillivolts(CheckPoint first, CheckPoint second, decimal celsius)
    {
        var result = ElectrodeCheck.TwoPoint(new((double)first.Standard, (double)first.Shown), new((double)second.Standard, (double)second.Shown), (double)celsius, Limits);
        var (offset, slope) = (Rounded((decimal)result.OffsetMillivolts), Rounded((decimal)result.SlopePercent));

        // The number shown is the number judged.
        var passes = slope >= (decimal)Limits.LowestSlopePercent && slope <= (decimal)Limits.HighestSlopePercent && Math.Abs(offset) <= (decimal)Limits.LargestOffsetMillivolts;
        return new(passes, offset, slope);
    }

    private static decimal Rounded(decimal value) => decimal.Round(value, 1, MidpointRounding.AwayFromZero);
}
