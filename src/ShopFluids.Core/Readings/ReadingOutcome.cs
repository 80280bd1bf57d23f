using ShopFluids.Calculations.Mixing;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Readings;

/// <summary>Everything a stored reading led to, kept with it: the answer to a repeated write is read from here.</summary>
public sealed record ReadingOutcome(
    Guid ReadingId,
    Verdict Verdict,
    IReadOnlyList<MeasurementOutcome> Measurements,
    IReadOnlyList<FlagOutcome> Raised,
    IReadOnlyList<FlagOutcome> Cleared,
    TopUpRecipe? Recipe,
    IReadOnlyList<TaskOutcome> Made,
    IReadOnlyList<TaskOutcome> Done,
    IReadOnlyList<TaskOutcome> Withdrawn,
    IReadOnlyList<Caution> Cautions,
    DateTime? NextTestDueAtUtc);

/// <param name="Limit">The limit crossed; by <paramref name="Basis"/> the value itself or the allowed fall from the first fill.</param>
/// <param name="IsUnlikely">Outside the usual range or a large step from the last; <paramref name="Previous"/> says from where.</param>
public sealed record MeasurementOutcome(
    string Parameter,
    string Method,
    decimal RawValue,
    string RawUnit,
    decimal Value,
    string Unit,
    decimal Uncertainty,
    Verdict Verdict,
    Direction Direction,
    decimal? Limit,
    LimitBasis Basis,
    bool IsUnlikely,
    decimal? Previous);

public sealed record FlagOutcome(Guid Id, string Rule, string Parameter, Verdict Severity, Direction Direction, IReadOnlyDictionary<string, decimal> Numbers);

public sealed record TaskOutcome(Guid Id, TaskKind Kind, string Cause, DateTime DueAtUtc);
