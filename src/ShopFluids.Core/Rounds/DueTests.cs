using ShopFluids.Core.Care;
using ShopFluids.Core.Setup;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Core.Rounds;

/// <summary>What the open tests of a sump ask to be measured, in the parameters' order on pages.</summary>
/// <param name="Remaining">Not measured yet.</param>
/// <param name="Done">Measured in this shop day already, while something of the same test remains.</param>
public sealed record DueTests(IReadOnlyList<string> Remaining, IReadOnlyList<string> Done)
{
    public bool IsPartlyRead => Done.Count > 0;

    /// <summary>The tests that are due by the end of a shop day.</summary>
    public static DueTests Of(ShopSetup setup, Guid sumpId, StandingFacts? facts, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(setup);
        if (facts is null)
        {
            return new([], []);
        }

        var until = setup.Calendar.EndOf(today);
        var steps = setup.StepsOf(sumpId).ToDictionary(s => CareStep.CauseOf(s.Id), StringComparer.Ordinal);
        var remaining = new HashSet<string>(StringComparer.Ordinal);
        var done = new HashSet<string>(StringComparer.Ordinal);
        foreach (var test in facts.OpenTasks.Where(t => t.Kind == TaskKind.Test && t.DueAt <= until))
        {
            if (!steps.TryGetValue(test.Cause, out var step))
            {
                // A flag asks for a second look: what raised it is no answer.
                remaining.UnionWith(ParameterOf(test.Cause));
                continue;
            }

            // A test that is still open though everything was measured asks for all of it again.
            var missing = step.Parameters.Where(p => !IsOf(today, p)).ToList();
            remaining.UnionWith(missing.Count > 0 ? missing : step.Parameters);
            done.UnionWith(missing.Count > 0 ? step.Parameters.Except(missing, StringComparer.Ordinal) : []);
        }

        done.ExceptWith(remaining);
        var order = setup.Parameters.Select(p => p.Code).ToList();
        return new([.. order.Where(remaining.Contains)], [.. order.Where(done.Contains)]);

        bool IsOf(DateOnly day, string parameter) => facts.Latest.TryGetValue(parameter, out var latest) && setup.Calendar.ShopDayOf(latest.TakenAt) == day;
    }

    // The cause of a test that a flag asked for is the rule and the parameter.
    private static IEnumerable<string> ParameterOf(string cause) => cause.Split(':', 2) is [_, var parameter] ? [parameter] : [];
}
