using ShopFluids.Core.Care;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Core.Rounds;

/// <summary>What the open tests of a sump ask to be measured.</summary>
public static class DueTests
{
    /// <summary>The parameters of the tests due by an instant, in their order on pages.</summary>
    public static IReadOnlyList<string> Parameters(ShopSetup setup, Guid sumpId, IEnumerable<OpenTask> openTasks, DateTime untilUtc)
    {
        ArgumentNullException.ThrowIfNull(setup);
        var steps = setup.StepsOf(sumpId).ToDictionary(s => CareStep.CauseOf(s.Id), StringComparer.Ordinal);
        var wanted = openTasks
            .Where(t => t.Kind == TaskKind.Test && t.DueAt <= untilUtc)
            .SelectMany(t => steps.TryGetValue(t.Cause, out var step) ? step.Parameters : ParameterOf(t.Cause))
            .ToHashSet(StringComparer.Ordinal);
        return [.. setup.Parameters.Select(p => p.Code).Where(wanted.Contains)];
    }

    // The cause of a test that a flag asked for is the rule and the parameter.
    private static IEnumerable<string> ParameterOf(string cause) => cause.Split(':', 2) is [_, var parameter] ? [parameter] : [];
}
