using ShopFluids.Rules.Disagreement;
using ShopFluids.Rules.Drift;
using ShopFluids.Rules.EndOfLife;
using ShopFluids.Rules.Escalation;
using ShopFluids.Rules.Gathering;
using ShopFluids.Rules.Idle;
using ShopFluids.Rules.Judging;
using ShopFluids.Rules.MassBalance;
using ShopFluids.Rules.Microbial;
using ShopFluids.Rules.RunDry;
using ShopFluids.Rules.SuddenChange;
using ShopFluids.Rules.UnreadSlide;
using ShopFluids.Rules.UnusualLoss;

namespace ShopFluids.Rules.Registry;

/// <summary>The rules that are asked after the limits, in this order.</summary>
public static class RuleRegistry
{
    /// <summary>Trends; the day of a test by risk goes by the readings that it looks at.</summary>
    public static DriftRule Drift { get; } = new();

    /// <summary>What the clock raises for a machine that stands.</summary>
    public static IdleRule Idle { get; } = new();

    /// <summary>What the clock does with flags that nobody answers.</summary>
    public static EscalationRule Escalation { get; } = new();

    /// <summary>What goes along with work that is due.</summary>
    public static GatheringRule Gathering { get; } = new();

    /// <summary>What the clock raises for a dip slide that nobody read.</summary>
    public static UnreadSlideRule UnreadSlide { get; } = new();

    /// <summary>All of them.</summary>
    public static IReadOnlyList<IRule> All { get; } =
    [
        new SuddenChangeRule(),
        Drift,
        new DisagreementRule(),
        new BalanceRule(),
        new UnusualLossRule(),
        new MicrobialRule(),
        new RunDryRule(),
        new EndOfLifeRule(),
        Idle,
        UnreadSlide,
        Escalation,
        Gathering,
    ];

    /// <summary>The rule of a code; null for the limit rules, the late test and what is no rule (any more).</summary>
    /// <param name="code">The rule's code.</param>
    public static IRule? Find(string code) => All.FirstOrDefault(r => r.Code == code);

    /// <summary>What the rules make of a reading. A rule that the shop has switched off ends its open flags.</summary>
    /// <param name="input">What the evaluation may look at.</param>
    public static FlagChanges Ask(EvaluationInput input)
    {
        var (raised, cleared, after) = (new List<Findings.RaisedFlag>(), new List<Facts.OpenFlag>(), new List<FlagState>());
        var courses = new Course.FollowedCourses(input);
        foreach (var rule in All)
        {
            var reading = new RuleCase(input, rule) { Courses = courses };
            var opinions = reading.IsOn
                ? rule.Check(reading)
                : input.Standing.OpenFlags.Where(f => f.Rule == rule.Code).Select(f => RuleOpinion.None(f.Parameter));
            foreach (var opinion in opinions)
            {
                Apply(rule, opinion, reading.OpenFlag(opinion.Parameter), raised, cleared, after);
            }
        }

        return new(raised, cleared, after);
    }

    private static void Apply(IRule rule, RuleOpinion opinion, Facts.OpenFlag? open, List<Findings.RaisedFlag> raised, List<Facts.OpenFlag> cleared, List<FlagState> after)
    {
        if (opinion is { IsAnother: false, Flag: { } found } && open is not null && open.Severity == found.Severity && open.Direction == found.Direction)
        {
            after.Add(new(open.Rule, open.Parameter, open.Severity, open.Direction, IsNew: false, IsBeyond: true) { Within = rule.WorkWithin(found) });
            return;
        }

        if (open is not null)
        {
            cleared.Add(open);
        }

        if (opinion.Flag is { } flag)
        {
            raised.Add(flag);
            after.Add(new(flag.Rule, flag.Parameter, flag.Severity, flag.Direction, IsNew: true, IsBeyond: true) { Within = rule.WorkWithin(flag) });
        }
    }
}
