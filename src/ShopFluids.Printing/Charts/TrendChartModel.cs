using ShopFluids.Core.Sheets;

namespace ShopFluids.Printing.Charts;

/// <summary>One trend on the time axis it shares with the other charts of the page, with the words it needs.</summary>
/// <remarks>
/// <para>ShowsDays: whether day labels stand under it; only the lowest chart of a page has them.</para>
/// </remarks>
public sealed record TrendChartModel(Trend Trend, TrendTimeAxis Axis, TrendChartWords Words, bool ShowsDays);

/// <summary>The words on a chart. The two limit texts take the value as {0}.</summary>
public sealed record TrendChartWords(string Now, string WarningLimit, string ActionLimit, string NoReadings);
