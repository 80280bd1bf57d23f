using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.OverdueTest;

namespace ShopFluids.Core.Board;

/// <summary>Where a sump stands, in the order in which it needs somebody.</summary>
public enum SumpState
{
    Action = 0,

    /// <summary>Was in range, but its test is late: nobody knows any more.</summary>
    Overdue = 1,

    Warning = 2,
    NotMeasured = 3,
    InRange = 4,
}

/// <summary>The one word for a sump: the worst open verdict, or overdue where that verdict is too old to be trusted.</summary>
/// <param name="Verdict">The worst of what was measured; a late test is no verdict on the fluid.</param>
public sealed record SumpStanding(SumpState State, Verdict Verdict, Direction Direction)
{
    public bool IsLate => State == SumpState.Overdue;

    /// <param name="facts">Null when the sump stands empty.</param>
    public static SumpStanding Of(StandingFacts? facts, DateTime nowUtc)
    {
        var (verdict, direction) = Worst(facts);
        var isLate = facts is not null && facts.OpenTasks.Any(t => OverdueTestRule.IsLate(t, nowUtc));
        var state = verdict switch
        {
            Verdict.Action => SumpState.Action,
            Verdict.Warning => SumpState.Warning,
            _ when isLate => SumpState.Overdue,
            Verdict.InRange => SumpState.InRange,
            _ => SumpState.NotMeasured,
        };
        return new(state, verdict, direction);
    }

    private static (Verdict Verdict, Direction Direction) Worst(StandingFacts? facts)
    {
        var found = facts is null
            ? []
            : facts.Latest.Select(l => (l.Value.Verdict, Direction: SideOf(l.Key, l.Value.Direction)))
                .Concat(facts.OpenFlags.Where(f => f.Rule != OverdueTestRule.Code).Select(f => (Verdict: f.Severity, Direction: SideOf(f.Parameter, f.Direction))))
                .ToList();
        if (found.Count == 0)
        {
            return (Verdict.NotMeasured, Direction.None);
        }

        // Two findings of one rank on different sides have no side together.
        var worst = found.Max(f => f.Verdict);
        var sides = found.Where(f => f.Verdict == worst).Select(f => f.Direction).Distinct().ToList();
        return (worst, sides.Count == 1 ? sides[0] : Direction.None);
    }

    // What is about the sump as a whole has no side.
    private static Direction SideOf(string parameter, Direction direction) => parameter.Length == 0 || ParameterCodes.IsBadOnlyHigh(parameter) ? Direction.None : direction;
}
