using ShopFluids.Core.Bench;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Api.Json;
using ShopFluids.Web.Api.Readings;

namespace ShopFluids.Web.Api.Bench;

/// <summary>What a run of a calculator gave.</summary>
/// <param name="Values">By code of the output.</param>
/// <param name="Source">Where the formula is from.</param>
/// <param name="Table">The rows of a chart; null where there is none.</param>
internal sealed record BenchRunAnswer(
    string Calculator,
    IReadOnlyDictionary<string, BenchValueAnswer> Values,
    IReadOnlyList<BenchStepAnswer> Steps,
    IReadOnlyList<BenchFindingAnswer> Findings,
    string Source,
    IReadOnlyList<CautionAnswer> Cautions,
    BenchTableAnswer? Table)
{
    public static BenchRunAnswer Of(BenchCalculator calculator, BenchAnswer answer) => new(
        calculator.Code,
        answer.Figures.ToDictionary(f => f.Output.Code, f => new BenchValueAnswer(f.Value, f.Output.Unit, f.Uncertainty), StringComparer.Ordinal),
        [.. answer.Steps.Select(s => new BenchStepAnswer(s.Formula, s.Numbers))],
        [.. answer.Findings.Select(f => new BenchFindingAnswer(f.Code, Codes.Of(f.Verdict), f.Sentence))],
        calculator.Source,
        [.. calculator.Cautions.Select(c => new CautionAnswer(Codes.Of(c), Sentences.Caution(c)))],
        answer.Table is { } table ? new BenchTableAnswer([.. table.Columns.Select(c => c.Code)], [.. table.Rows.Select(r => new BenchRowAnswer(r.Values, r.IsBeyond))]) : null);
}

/// <param name="Value">Not rounded.</param>
/// <param name="Uncertainty">Expanded, k = 2; null where the calculation knows none.</param>
internal sealed record BenchValueAnswer(double Value, string Unit, double? Uncertainty);

/// <param name="Columns">Code of each column.</param>
/// <param name="Rows">In order, the first reading first.</param>
internal sealed record BenchTableAnswer(IReadOnlyList<string> Columns, IReadOnlyList<BenchRowAnswer> Rows);

/// <param name="Values">One for each column, not rounded.</param>
/// <param name="Beyond">Whether it lies beyond a limit of the chart.</param>
internal sealed record BenchRowAnswer(IReadOnlyList<double> Values, bool Beyond);

internal sealed record BenchStepAnswer(string Formula, string Numbers);

internal sealed record BenchFindingAnswer(string Code, string Verdict, string Text);
