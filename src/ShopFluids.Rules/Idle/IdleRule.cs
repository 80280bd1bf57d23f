using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Registry;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Idle;

/// <summary>
/// Flags a sump of which nothing has been read, added or taken out for so long that its machine must be standing. No hour counter is read, so
/// that is told from the lack of any sign of life. The clock raises it; a reading ends it.
/// </summary>
public sealed class IdleRule : IRule
{
    /// <summary>The rule's code.</summary>
    public const string RuleCode = "idle";

    /// <summary>Number: for how many open shop days a sump may stand without a sign of life. Two working weeks; common practice, no source.</summary>
    public const string AllowedShopDays = "allowedShopDays";

    /// <summary>
    /// Number: by how many open shop days a planned test must be late; until then somebody may still be on the way. Common practice, no source.
    /// </summary>
    public const string TestLateShopDays = "testLateShopDays";

    private const int RuleVersion = 1;

    private static readonly TaskKind[] CirculateThenTest = [TaskKind.Circulate, TaskKind.Test];

    /// <inheritdoc/>
    public string Code => RuleCode;

    /// <inheritdoc/>
    public int Version => RuleVersion;

    /// <inheritdoc/>
    public IReadOnlyList<RuleNumber> Numbers { get; } = [new(AllowedShopDays, 10, 1, 120) { IsWhole = true }, new(TestLateShopDays, 2, 1, 60) { IsWhole = true }];

    /// <inheritdoc/>
    public bool AsksForASecondLook => false;

    /// <summary>The flag for a sump that stands; null where it does not, where that cannot be told, or where it is flagged already; on open days only.</summary>
    /// <param name="standing">What is known of the sump.</param>
    /// <param name="calendar">The sump's days; those of a planned shutdown are closed, and have work of their own.</param>
    /// <param name="tunings">How the rules are set for the sump.</param>
    /// <param name="now">The moment of judging, UTC.</param>
    public RaisedFlag? CheckClock(StandingFacts standing, ShopCalendar calendar, IReadOnlyDictionary<string, RuleTuning> tunings, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(standing);
        ArgumentNullException.ThrowIfNull(calendar);
        var set = TunedRule.Of(this, tunings);
        if (!set.IsOn
            || !calendar.IsOpen(calendar.ShopDayOf(now))
            || standing.OpenFlags.Any(f => f.Rule == RuleCode)
            || standing.OpenTasks.Any(t => t.Kind == TaskKind.Test && OpenDays.CountBegun(t.DueAt, now, calendar) < set.Number(TestLateShopDays)))
        {
            return null;
        }

        var days = OpenDays.CountBegun(LastSignOfLife(standing), now, calendar);
        return days < set.Number(AllowedShopDays)
            ? null
            : new(RuleCode, RuleVersion, "", Verdict.Warning, Direction.None, new SortedDictionary<string, decimal>(StringComparer.Ordinal) { [NumberNames.Days] = days });
    }

    /// <summary>When the sump was last read, or fluid moved, UTC; the fill counts.</summary>
    /// <param name="standing">What is known of the sump.</param>
    public static DateTime LastSignOfLife(StandingFacts standing)
    {
        ArgumentNullException.ThrowIfNull(standing);
        var last = standing.LastMovedAt > standing.FilledAt ? standing.LastMovedAt.Value : standing.FilledAt;
        return standing.Latest.Values.Select(l => l.TakenAt).Append(last).Max();
    }

    /// <inheritdoc/>
    public IEnumerable<RuleOpinion> Check(RuleCase reading)
    {
        ArgumentNullException.ThrowIfNull(reading);

        // What is entered late was read before the sump stood: it tells nothing.
        if (reading.OpenFlag("") is not null && reading.TakenAt > LastSignOfLife(reading.Input.Standing))
        {
            yield return RuleOpinion.None("");
        }
    }

    /// <inheritdoc/>
    public IReadOnlyList<TaskKind> WorkFor(FlagKey flag, bool isConfirmed) => CirculateThenTest;
}
