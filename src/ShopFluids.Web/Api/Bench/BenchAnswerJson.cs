using ShopFluids.Core.Bench;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Api.Json;
using ShopFluids.Web.Api.Readings;

namespace ShopFluids.Web.Api.Bench;

/// <summary>What a run of a calculator gave.</summary>
/// <param name="Values">By code of the output.</param>
/// <param name="Source">Where the formula is from.</param>
internal sealed record BenchRunAnswer(
    string Calculator,
    IReadOnlyDictionary<string, BenchValueAnswer> Values,
    IReadOnlyList<BenchStepAnswer> Steps,
    IReadOnlyList<BenchFindingAnswer> Findings,
    string Source,
    IReadOnlyList<CautionAnswer> Cautions)
{
    public static BenchRunAnswer Of(BenchCalculator calculator, BenchAnswer answer) => new(
        calculator.Code,
        answer.Figures.ToDictionary(f => f.Output.Code, f => new BenchValueAnswer(f.Value, f.Output.Unit, f.Uncertainty), StringComparer.Ordinal),
        [.. answer.Steps.Select(s => new BenchStepAnswer(s.Formula, s.Numbers))],
        [.. answer.Findings.Select(f => new BenchFindingAnswer(f.Code, Codes.Of(f.Verdict), f.Sentence))],
        calculator.Source,
        [.. calculator.Cautions.Select(c => new CautionAnswer(Codes.Of(c), Sentences.Caution(c)))]);
}

/// <param name="Value">Not rounded.</param>
/// <param name="Uncertainty">Expanded, k = 2; null where the calculation knows none.</param>
internal sealed record BenchValueAnswer(double Value, string Unit, double? Uncertainty);

internal sealed record BenchStepAnswer(string Formula, string Numbers);

internal sealed record BenchFindingAnswer(string Code, string Verdict, string Text);
