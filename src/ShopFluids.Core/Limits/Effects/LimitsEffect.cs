using ShopFluids.Rules;

namespace ShopFluids.Core.Limits.Effects;

/// <summary>What drafted limits say of past readings, beside what those in force now say of them.</summary>
/// <param name="Readings">How many were judged.</param>
/// <param name="Parameters">Those that one of the two judges, in the order of pages.</param>
/// <param name="Sumps">Those with a reading, in walking order.</param>
public sealed record LimitsEffect(int Readings, IReadOnlyList<ParameterEffect> Parameters, IReadOnlyList<SumpEffect> Sumps)
{
    /// <summary>Readings whose verdict changes.</summary>
    public int Changed => Sumps.Sum(s => s.Changed);
}

/// <summary>One parameter, a value for each reading.</summary>
/// <param name="Changed">Values whose verdict changes.</param>
public sealed record ParameterEffect(string Parameter, VerdictCounts Now, VerdictCounts Then, int Changed);

/// <summary>How many values stand how.</summary>
/// <param name="NotJudged">Measured, but nothing judges it.</param>
public sealed record VerdictCounts(int InRange, int Warning, int Action, int NotJudged)
{
    public static VerdictCounts Of(IReadOnlyCollection<Verdict> verdicts) => new(
        verdicts.Count(v => v == Verdict.InRange),
        verdicts.Count(v => v == Verdict.Warning),
        verdicts.Count(v => v == Verdict.Action),
        verdicts.Count(v => v == Verdict.NotMeasured));
}

/// <param name="Worse">Readings that get a worse verdict.</param>
/// <param name="Better">Readings that get a better one.</param>
public sealed record SumpEffect(string Tag, int Readings, int Worse, int Better)
{
    public int Changed => Worse + Better;
}
