namespace ShopFluids.Core.Bench.Answers;

/// <summary>The numbers of a chart, a row for each of its points.</summary>
/// <param name="RowTitle">What a row is, above their names.</param>
/// <param name="Columns">Name, unit and decimals of each column.</param>
public sealed record BenchTable(string RowTitle, IReadOnlyList<BenchOutput> Columns, IReadOnlyList<BenchRow> Rows);

/// <param name="Name">Such as the number of the reading.</param>
/// <param name="Values">One for each column, canonical.</param>
/// <param name="IsBeyond">Whether it lies beyond a limit.</param>
public sealed record BenchRow(string Name, IReadOnlyList<double> Values, bool IsBeyond);
