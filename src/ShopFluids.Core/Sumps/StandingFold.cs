using ShopFluids.Core.Readings;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Core.Sumps;

/// <summary>
/// Folds readings, flags and tasks into the facts of a standing. The running update after a reading and the rebuild from
/// history both go through here, so that they cannot drift apart.
/// </summary>
internal static class StandingFold
{
    /// <summary>The facts of a fresh charge.</summary>
    public static StandingFacts Fresh(DateTime filledAtUtc, IEnumerable<OpenTask> openTasks, DateTime? lastMovedAtUtc = null) =>
        new(filledAtUtc, null, new SortedDictionary<string, LatestValue>(StringComparer.Ordinal), [], Ordered(openTasks), lastMovedAtUtc);

    /// <summary>Adds a reading's values. Readings come in the order of their time; of one time, in the order they were stored.</summary>
    public static StandingFacts Add(StandingFacts facts, DateTime takenAtUtc, IEnumerable<Measurement> measurements)
    {
        var latest = new SortedDictionary<string, LatestValue>(facts.Latest.ToDictionary(), StringComparer.Ordinal);
        var firstPh = facts.FirstFillPh;

        // Where a reading has two methods, titration is the one that tramp oil does not falsify (DGUV Regel 109-003, 7.1.1).
        foreach (var measurement in measurements.OrderBy(m => m.Method == MethodCodes.Titration).ThenBy(m => m.Method, StringComparer.Ordinal))
        {
            latest[measurement.Parameter] = new((decimal)measurement.Value, (decimal)measurement.Uncertainty, takenAtUtc, measurement.Verdict, measurement.Direction);
            if (measurement.Parameter == ParameterCodes.Ph)
            {
                firstPh ??= (decimal)measurement.Value;
            }
        }

        return facts with { Latest = latest, FirstFillPh = firstPh };
    }

    public static StandingFacts With(StandingFacts facts, IEnumerable<OpenFlag> openFlags, IEnumerable<OpenTask> openTasks) =>
        facts with { OpenFlags = Ordered(openFlags), OpenTasks = Ordered(openTasks) };

    private static List<OpenFlag> Ordered(IEnumerable<OpenFlag> flags) =>
        [.. flags.OrderByDescending(f => f.Severity).ThenBy(f => f.Rule, StringComparer.Ordinal).ThenBy(f => f.Parameter, StringComparer.Ordinal)];

    private static List<OpenTask> Ordered(IEnumerable<OpenTask> tasks) =>
        [.. tasks.OrderBy(t => t.DueAt).ThenBy(t => t.Kind).ThenBy(t => t.Cause, StringComparer.Ordinal)];
}
