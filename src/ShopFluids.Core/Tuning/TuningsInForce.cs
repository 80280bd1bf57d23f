using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Core.Tuning;

/// <summary>
/// How the rules are set at one place. A sump's setting goes before its fluid's and that before the shop's, each number and the switch for
/// itself: a sump that sets one number follows its fluid in the others.
/// </summary>
public sealed class TuningsInForce
{
    private readonly ILookup<string, RuleSetting> _byRule;

    /// <param name="settings">Every version of what concerns the place.</param>
    internal TuningsInForce(IReadOnlyList<RuleSetting> settings)
    {
        _byRule = settings.GroupBy(s => (s.Rule, s.Level))
            .Select(g => g.OrderByDescending(s => s.Number).First())
            .OrderByDescending(s => s.Level)
            .ToLookup(s => s.Rule, StringComparer.Ordinal);
        ByRule = _byRule.ToDictionary(r => r.Key, r => new RuleTuning(r.Key, IsOn(r), Numbers(r)), StringComparer.Ordinal);
    }

    public static TuningsInForce None { get; } = new([]);

    /// <summary>As the rules take them: only those of which something is set.</summary>
    public IReadOnlyDictionary<string, RuleTuning> ByRule { get; }

    /// <summary>A rule with all its numbers, and where each comes from.</summary>
    /// <param name="most">Settings nearer to the sump than this are left aside: so it is seen what a place would take from above.</param>
    public RuleInForce Of(IRule rule, RuleLevel most = RuleLevel.Sump)
    {
        ArgumentNullException.ThrowIfNull(rule);
        var settings = _byRule[rule.Code].Where(s => s.Level <= most).ToList();
        var switched = settings.Find(s => s.IsOn is not null);
        return new(
            rule,
            switched?.IsOn ?? true,
            switched?.Level ?? RuleLevel.Shipped,
            [.. rule.Numbers.Select(n => settings.Find(s => s.Numbers.ContainsKey(n.Name)) is { } set
                ? new NumberInForce(n, set.Numbers[n.Name], set.Level)
                : new NumberInForce(n, n.Default, RuleLevel.Shipped))]);
    }

    /// <summary>The numbers that a rule uses, to be kept with its flags; null for a rule without any.</summary>
    public IReadOnlyDictionary<string, decimal>? NumbersOf(string rule) => RuleRegistry.Find(rule) is { Numbers.Count: > 0 } found
        ? new SortedDictionary<string, decimal>(Of(found).Numbers.ToDictionary(n => n.Number.Name, n => n.Value), StringComparer.Ordinal)
        : null;

    private static bool IsOn(IEnumerable<RuleSetting> settings) => settings.Select(s => s.IsOn).FirstOrDefault(o => o is not null) ?? true;

    private static Dictionary<string, decimal> Numbers(IEnumerable<RuleSetting> settings)
    {
        var numbers = new Dictionary<string, decimal>(StringComparer.Ordinal);
        foreach (var (name, value) in settings.SelectMany(s => s.Numbers))
        {
            numbers.TryAdd(name, value);
        }

        return numbers;
    }
}

/// <summary>A number of a rule as it holds at a place.</summary>
/// <param name="From">Whose setting it is.</param>
public sealed record NumberInForce(RuleNumber Number, decimal Value, RuleLevel From);

/// <summary>A rule as it holds at a place.</summary>
/// <param name="OnFrom">Who has switched it on or off.</param>
public sealed record RuleInForce(IRule Rule, bool IsOn, RuleLevel OnFrom, IReadOnlyList<NumberInForce> Numbers);
