using ShopFluids.Rules.Facts;

namespace ShopFluids.Rules.Shipped;

/// <summary>Limits that shops use and that no rule of an authority sets. Starting values; the fluid's own sheet comes before them.</summary>
public static class CommonPractice
{
    private const string NoSource = "Common practice, no source";
    private const string FromMemory = "Trade handbooks, from memory";

    /// <summary>
    /// Concentration around its band: outside it a warning; two points outside, or under half its lower end, action.
    /// </summary>
    /// <param name="targetLow">The lower end of the band, above 0, % v/v.</param>
    /// <param name="targetHigh">The upper end, from the lower one to 100, % v/v.</param>
    /// <exception cref="ArgumentOutOfRangeException">The band is not one.</exception>
    public static ShippedLimit Concentration(decimal targetLow, decimal targetHigh)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(targetLow);
        ArgumentOutOfRangeException.ThrowIfLessThan(targetHigh, targetLow);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(targetHigh, 100m);
        var margin = Math.Min(0.2m, (targetHigh - targetLow) / 4);
        return new(
            Value(ParameterCodes.Concentration, margin) with
            {
                ActionLow = Math.Max(targetLow - 2m, targetLow / 2),
                WarningLow = targetLow,
                TargetLow = targetLow,
                TargetHigh = targetHigh,
                WarningHigh = targetHigh,
                ActionHigh = Math.Min(targetHigh + 2m, 100m),
            },
            FromMemory);
    }

    /// <summary>pH of a soluble oil: 8.5 to 9.3 good; warning under 8.5 and over 9.5; action under 8.2 and over 10.0.</summary>
    public static ShippedLimit Ph { get; } = new(
        Value(ParameterCodes.Ph, 0.1m) with { ActionLow = 8.2m, WarningLow = 8.5m, TargetLow = 8.5m, TargetHigh = 9.3m, WarningHigh = 9.5m, ActionHigh = 10.0m },
        FromMemory);

    /// <summary>Level between pump intake and full mark: warning under half of that range, action under a quarter, warning over the full mark.</summary>
    /// <param name="fullMarkMm">The level to which the sump is topped up, mm.</param>
    /// <param name="pumpIntakeMm">The level under which the pump draws air, 0 to below the full mark, mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">The marks are the wrong way round.</exception>
    public static ShippedLimit Level(decimal fullMarkMm, decimal pumpIntakeMm)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(pumpIntakeMm);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(fullMarkMm, pumpIntakeMm);
        var range = fullMarkMm - pumpIntakeMm;
        return new(
            Value(ParameterCodes.Level, Math.Min(5m, range / 20)) with
            {
                ActionLow = decimal.Round(pumpIntakeMm + (range / 4)),
                WarningLow = decimal.Round(pumpIntakeMm + (range / 2)),
                TargetHigh = fullMarkMm,
                WarningHigh = decimal.Round(fullMarkMm + (range / 20)),
            },
            NoSource);
    }

    /// <summary>Surface covered by tramp oil: warning over 10 %, action over 50 %.</summary>
    public static ShippedLimit TrampOilCover { get; } = new(Value(ParameterCodes.TrampOil, 2m) with { WarningHigh = 10m, ActionHigh = 50m }, NoSource);

    /// <summary>Tramp oil by volume (acid split), for a shop that logs it so: warning over 2 %, action over 5 %.</summary>
    public static ShippedLimit TrampOilVolume { get; } = new(
        Value(ParameterCodes.TrampOil, 0.2m) with { WarningHigh = 2m, ActionHigh = 5m },
        "UKLA/HSE good practice guide (2018): at most 2 %, read second hand; 5 % from memory");

    /// <summary>Odour in words: sour is a warning, rotten egg is action.</summary>
    public static ShippedLimit Odour { get; } = Word(ParameterCodes.Odour);

    /// <summary>Foam in words: much is a warning, over the edge is action.</summary>
    public static ShippedLimit Foam { get; } = Word(ParameterCodes.Foam);

    /// <summary>Fines and sludge in words: a layer is a warning, a thick layer is action.</summary>
    public static ShippedLimit Fines { get; } = Word(ParameterCodes.Fines);

    /// <summary>Fluid temperature: over 30 °C microbes gain, over 35 °C action.</summary>
    public static ShippedLimit Temperature { get; } = new(
        Value(ParameterCodes.Temperature, 1m) with { WarningHigh = 30m, ActionHigh = 35m },
        "UKLA/HSE good practice guide (2018): above 30 °C, read second hand; 35 °C from memory");

    private static ShippedLimit Word(string parameter) =>
        new(Value(parameter, 0m) with { WarningHigh = 2m, ActionHigh = 3m, EdgeIsBeyond = true }, NoSource);

    private static ParameterLimits Value(string parameter, decimal clearMargin) =>
        new(parameter, LimitBasis.Value, null, null, null, null, null, null, EdgeIsBeyond: false, clearMargin);
}
