using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Registry;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Rules.Escalation;

/// <summary>
/// When a flag that nobody answered goes to the supervisor. Whoever reads the sump, moves fluid, ends work or gives it to somebody has answered.
/// It raises nothing itself: the clock marks the flags of other rules.
/// </summary>
public sealed class EscalationRule : IRule
{
    /// <summary>The rule's code.</summary>
    public const string RuleCode = "escalation";

    /// <summary>Number: for how many open shop days a warning may stay unseen. Common practice, no source.</summary>
    public const string WarningShopDays = "warningShopDays";

    /// <summary>Number: for how many hours an action may stay unanswered. A shift; common practice, no source.</summary>
    public const string ActionHours = "actionHours";

    /// <inheritdoc/>
    public string Code => RuleCode;

    /// <inheritdoc/>
    public int Version => 1;

    /// <inheritdoc/>
    public IReadOnlyList<RuleNumber> Numbers { get; } = [new(WarningShopDays, 2, 1, 60) { IsWhole = true }, new(ActionHours, 8, 1, 168) { IsWhole = true }];

    /// <inheritdoc/>
    public bool AsksForASecondLook => false;

    /// <inheritdoc/>
    public IEnumerable<RuleOpinion> Check(RuleCase reading) => [];

    /// <inheritdoc/>
    public IReadOnlyList<TaskKind> WorkFor(FlagKey flag, bool isConfirmed) => [];

    /// <summary>Whether it is time.</summary>
    /// <param name="severity">Warning or action.</param>
    /// <param name="raisedAt">When it was raised, UTC.</param>
    /// <param name="answeredAt">When somebody last did something about its subject, UTC; null for never.</param>
    /// <param name="calendar">The shop's days; nobody is asked to answer on closed ones.</param>
    /// <param name="tunings">How the rules are set for the subject.</param>
    /// <param name="now">The moment of judging, UTC.</param>
    public bool IsDue(Verdict severity, DateTime raisedAt, DateTime? answeredAt, ShopCalendar calendar, IReadOnlyDictionary<string, RuleTuning> tunings, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(calendar);
        var set = TunedRule.Of(this, tunings);
        return set.IsOn && !(answeredAt > raisedAt) && now >= At(severity, raisedAt, calendar, set);
    }

    // A warning: the start of the last of its open days, of those that begin after it. An action: its hours later, or that long into the next open day.
    private static DateTime At(Verdict severity, DateTime raisedAt, ShopCalendar calendar, TunedRule set)
    {
        if (severity == Verdict.Action)
        {
            var within = TimeSpan.FromHours((double)set.Number(ActionHours));
            var at = raisedAt + within;
            var day = calendar.ShopDayOf(at);
            return calendar.IsOpen(day) ? at : calendar.StartOf(OpenDays.OnOrAfter(day, calendar)) + within;
        }

        var begun = calendar.ShopDayOf(raisedAt);
        for (var days = 0; days < set.Number(WarningShopDays); days++)
        {
            begun = OpenDays.OnOrAfter(begun.AddDays(1), calendar);
        }

        return calendar.StartOf(begun);
    }
}
