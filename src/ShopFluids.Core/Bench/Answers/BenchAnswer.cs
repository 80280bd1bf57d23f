using ShopFluids.Rules;

namespace ShopFluids.Core.Bench.Answers;

/// <summary>A number that a calculator gives, as it is described before there is one.</summary>
/// <param name="Code">Its name in the API, with the unit in it, such as waterLitres.</param>
/// <param name="Unit">Canonical unit; empty for a plain number.</param>
/// <param name="Decimals">To how many it is shown.</param>
public sealed record BenchOutput(string Code, Func<string> Label, string Unit, int Decimals)
{
    /// <summary>Shown large: what the person came for.</summary>
    public bool IsMain { get; init; }

    /// <summary>Shown in its own unit to everybody: what a page of units is for.</summary>
    public bool IsInOwnUnit { get; init; }
}

/// <summary>A result.</summary>
/// <param name="Uncertainty">Expanded, k = 2, in the same unit; null where the calculation knows none.</param>
public sealed record BenchFigure(BenchOutput Output, double Value, double? Uncertainty);

/// <summary>One line of how it was worked out.</summary>
/// <param name="Formula">In symbols.</param>
/// <param name="Numbers">The same with the numbers put in, in canonical units.</param>
public sealed record BenchStep(string Formula, string Numbers);

/// <summary>Something that the person should know about the result.</summary>
/// <param name="Code">For programs.</param>
public sealed record BenchFinding(string Code, Verdict Verdict, string Sentence);

/// <summary>What one run of a calculator gives.</summary>
public sealed record BenchAnswer(
    IReadOnlyList<BenchFigure> Figures,
    IReadOnlyList<BenchStep> Steps,
    IReadOnlyList<BenchFinding> Findings,
    BenchPicture? Picture)
{
    /// <summary>The numbers behind the picture, where there are many; null without.</summary>
    public BenchTable? Table { get; init; }
}
