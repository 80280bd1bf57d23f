using ShopFluids.Core.Rounds;
using ShopFluids.Printing.Charts;

namespace ShopFluids.Web.Components.Shared;

/// <summary>A zone of the gauge; its height says how good it is.</summary>
public sealed record GaugeStep(string CssClass, double X, double Width, double Y, double Height);

/// <summary>A limit's value under the gauge.</summary>
public sealed record GaugeLabel(double X, decimal Value, string Text);

/// <summary>The numbers under a gauge.</summary>
/// <param name="Size">Of the writing, in units of the drawing; the style sheets say the same.</param>
/// <param name="Most">How many there is room for.</param>
public sealed record GaugeNumbers(double Size, int Most)
{
    public static GaugeNumbers All { get; } = new(15, 6);

    /// <summary>For a drawing half as wide: the edges of the target, or of the warning where there is none.</summary>
    public static GaugeNumbers Few { get; } = new(26, 2);

    // Digits of our font are 0.56 of its size wide; a blank stands between two numbers.
    internal double Width(string text) => (text.Length + 1) * Size * 0.58;
}

/// <summary>
/// Where the parts of a step gauge lie in its drawing of 440 x 58: target 21 high, in range 13, warning 7, beyond action a line.
/// A value off the gauge sits at its end.
/// </summary>
public sealed record StepGaugeLayout(IReadOnlyList<GaugeStep> Steps, IReadOnlyList<GaugeLabel> Labels, double? NowX, double? LastX)
{
    public const double Left = 4;
    public const double Right = 436;
    public const double MiddleY = 27;

    // How much of the outermost zone is shown beyond the limits, as a share of what lies between them.
    private const double Beyond = 0.2;

    /// <param name="write">How a limit is written.</param>
    public static StepGaugeLayout Of(GaugeLimits limits, decimal? now, decimal? last, Func<decimal, string> write, GaugeNumbers numbers)
    {
        ArgumentNullException.ThrowIfNull(limits);
        ArgumentNullException.ThrowIfNull(write);
        ArgumentNullException.ThrowIfNull(numbers);
        var scale = Scale.For(limits);
        return new(
            [.. Zones(limits, scale)],
            LabelsOf(limits, scale, write, numbers),
            now is { } n ? scale.X(n) : null,
            last is { } l ? scale.X(l) : null);
    }

    // Drawn from the outside in: each zone covers what it shares with the one around it.
    private static IEnumerable<GaugeStep> Zones(GaugeLimits limits, Scale scale)
    {
        var warningLow = limits.WarningLow ?? limits.ActionLow;
        var warningHigh = limits.WarningHigh ?? limits.ActionHigh;
        if (limits.WarningLow is { } low)
        {
            yield return Step("g-w", scale.X(limits.ActionLow), scale.X(low), 7);
        }

        if (limits.WarningHigh is { } high)
        {
            yield return Step("g-w", scale.X(high), scale.XOrEnd(limits.ActionHigh), 7);
        }

        yield return Step("g-r", scale.X(warningLow), scale.XOrEnd(warningHigh), 13);
        if (limits.TargetLow is not null || limits.TargetHigh is not null)
        {
            yield return Step("g-t", scale.X(limits.TargetLow ?? warningLow), scale.XOrEnd(limits.TargetHigh ?? warningHigh), 21);
        }
    }

    private static GaugeStep Step(string cssClass, double from, double to, double height) =>
        new(cssClass, from, Math.Max(0, to - from), MiddleY - (height / 2), height);

    // The target's edges matter most, then the warning's: they stand first, where there is room for few. None covers another: those that
    // would are moved apart, as little as possible and in the order of their values.
    private static List<GaugeLabel> LabelsOf(GaugeLimits limits, Scale scale, Func<decimal, string> write, GaugeNumbers numbers)
    {
        var values = new[] { limits.TargetLow, limits.TargetHigh, limits.WarningLow, limits.WarningHigh, limits.ActionLow, limits.ActionHigh }.OfType<decimal>().Distinct().Take(numbers.Most).ToList();
        var texts = values.ConvertAll(v => write(v));
        var gap = texts.Max(numbers.Width);
        var places = LabelColumn.Spread([.. values.Select(v => scale.X(v))], gap, Left + (gap / 2), Right - (gap / 2));
        return [.. values.Select((value, n) => new GaugeLabel(places[n], value, texts[n]))];
    }

    private sealed record Scale(double Low, double High)
    {
        public static Scale For(GaugeLimits limits)
        {
            var low = (double)limits.Values.Min();
            var high = (double)limits.Values.Max();
            var span = high > low ? high - low : Math.Max(1, Math.Abs(high));
            var hasLow = limits.ActionLow is not null || limits.WarningLow is not null || limits.TargetLow is not null;

            // Where nothing is too low the scale starts at zero, or at its least limit.
            return new(hasLow ? low - (span * Beyond) : Math.Min(0, low), high + (span * Beyond));
        }

        public double X(decimal? value) => value is { } v ? Left + ((Right - Left) * Math.Clamp(((double)v - Low) / (High - Low), 0, 1)) : Left;

        public double XOrEnd(decimal? value) => value is null ? Right : X(value);
    }
}
