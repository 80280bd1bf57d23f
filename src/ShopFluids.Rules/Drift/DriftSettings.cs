using ShopFluids.Rules.Registry;

namespace ShopFluids.Rules.Drift;

/// <summary>The numbers of the rule, as set.</summary>
/// <param name="HorizonDays">How far ahead a limit is looked for.</param>
/// <param name="Significance">The largest p of a trend that is believed, two-sided.</param>
/// <param name="LeastReadings">Fewest readings.</param>
/// <param name="UsualReadings">Readings before that many are forgotten, once the rest reaches back over <paramref name="UsualDays"/>.</param>
/// <param name="UsualDays">Where readings are frequent more of them are looked at, so that a few days of chance are no trend.</param>
/// <param name="LargeCorrection">By what share of itself known movements must change a concentration for its trend to begin anew.</param>
/// <param name="LargeExchange">What share of the fluid must be exchanged for a trend to begin anew.</param>
internal sealed record DriftSettings(double HorizonDays, double Significance, int LeastReadings, int UsualReadings, double UsualDays, double LargeCorrection, double LargeExchange)
{
    public const string HorizonDaysName = "horizonDays";
    public const string SignificanceName = "significance";
    public const string LeastReadingsName = "leastReadings";
    public const string UsualReadingsName = "usualReadings";
    public const string UsualDaysName = "usualDays";
    public const string LargeCorrectionPercentName = "largeCorrectionPercent";
    public const string LargeExchangePercentName = "largeExchangePercent";

    /// <summary>However frequent the readings are, so many are enough.</summary>
    public const int MostReadings = 26;

    // An open flag stays until the trend is clearly gone or the limit clearly farther off. Common practice, no source.
    private const double SignificanceToClear = 4;
    private const double HorizonToClear = 1.5;

    public static IReadOnlyList<RuleNumber> Numbers { get; } =
    [
        new(HorizonDaysName, 14, 2, 90),
        new(SignificanceName, 0.05m, 0.001m, 0.2m),
        new(LeastReadingsName, 6, 4, MostReadings) { IsWhole = true },
        new(UsualReadingsName, 8, 4, MostReadings) { IsWhole = true },
        new(UsualDaysName, 42, 1, 366),
        new(LargeCorrectionPercentName, 15, 5, 100),
        new(LargeExchangePercentName, 50, 5, 100),
    ];

    public static DriftSettings Of(RuleCase reading) => new(
        (double)reading.Number(HorizonDaysName),
        (double)reading.Number(SignificanceName),
        (int)reading.Number(LeastReadingsName),
        (int)Math.Max(reading.Number(UsualReadingsName), reading.Number(LeastReadingsName)),
        (double)reading.Number(UsualDaysName),
        (double)reading.Number(LargeCorrectionPercentName) / 100,
        (double)reading.Number(LargeExchangePercentName) / 100);

    /// <summary>The largest p of a trend that is believed, two-sided.</summary>
    /// <param name="isOpen">A flag on its side is open.</param>
    public double LargestPValue(bool isOpen) => Significance * (isOpen ? SignificanceToClear : 1);

    /// <summary>Whether a trend meets its limit soon enough.</summary>
    /// <param name="trend">The trend.</param>
    /// <param name="spanDays">How far its readings reach back: it is followed no farther ahead than that.</param>
    /// <param name="isOpen">A flag on that side is open.</param>
    public bool IsSoon(Trend trend, double spanDays, bool isOpen) =>
        trend.Days <= Math.Min(spanDays, HorizonDays) * (isOpen ? HorizonToClear : 1);
}
