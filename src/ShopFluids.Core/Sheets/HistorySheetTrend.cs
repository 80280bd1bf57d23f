using ShopFluids.Rules;

namespace ShopFluids.Core.Sheets;

/// <summary>The charts of one sheet or page: they share one time axis.</summary>
public sealed record HistorySheetTrends(TrendTimeAxis Axis, IReadOnlyList<Trend> Charts);

/// <summary>
/// A time axis from one instant to another, with shop days as ticks. The caller owns time zone and culture: it says when a shop
/// date begins, on which shop date an instant lies, and how the date is written.
/// </summary>
/// <remarks>
/// <para>NowUtc: where "now" stands, or null for no mark.</para>
/// <para>StartOfDayUtc: the instant at which a shop date begins (midnight of shop time).</para>
/// <para>DayOf: the shop date of an instant.</para>
/// <para>DayLabel: a date as the axis shows it, such as "14 Sep".</para>
/// </remarks>
public sealed record TrendTimeAxis(
    DateTime FromUtc,
    DateTime ToUtc,
    DateTime? NowUtc,
    Func<DateOnly, DateTime> StartOfDayUtc,
    Func<DateTime, DateOnly> DayOf,
    Func<DateOnly, string> DayLabel);

/// <summary>One parameter over time.</summary>
/// <remarks>
/// <para>Title: name with unit, such as "Concentration, % v/v".</para>
/// <para>Points: readings in any order; superseded ones are drawn as a cross and not joined.</para>
/// <para>AdditionsUtc: instants at which something was put in; drawn as a wedge above the chart.</para>
/// <para>Limits: the limits with the time for which they applied, so that a change of limits shows as a step.</para>
/// <para>Format: writes a value on the scale and at a limit; the second argument is the number of decimals.</para>
/// <para>Range: the least range of the scale.</para>
/// </remarks>
public sealed record Trend(
    string Title,
    IReadOnlyList<TrendPoint> Points,
    IReadOnlyList<DateTime> AdditionsUtc,
    IReadOnlyList<TrendLimits> Limits,
    Func<double, int, string> Format,
    TrendRange Range);

public sealed record TrendPoint(DateTime AtUtc, double Value, Verdict Verdict, Direction Direction, bool IsSuperseded = false);

/// <summary>The limits between two instants; null where there is none.</summary>
public sealed record TrendLimits(
    DateTime FromUtc,
    DateTime ToUtc,
    double? ActionLow = null,
    double? WarningLow = null,
    double? TargetLow = null,
    double? TargetHigh = null,
    double? WarningHigh = null,
    double? ActionHigh = null);

/// <summary>What the scale must show besides the readings.</summary>
/// <remarks>
/// <para>Least: a value that the scale reaches down to, or null.</para>
/// <para>Greatest: a value that the scale reaches up to, or null.</para>
/// <para>SmallestSpan: the scale never spans less, so that noise does not look like a trend.</para>
/// <para>Decimals: decimals at limits, such as 1; the scale takes as many as its ticks need.</para>
/// </remarks>
public sealed record TrendRange(double? Least, double? Greatest, double SmallestSpan, int Decimals);
