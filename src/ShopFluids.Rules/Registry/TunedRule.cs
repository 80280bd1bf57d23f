using ShopFluids.Rules.Facts;

namespace ShopFluids.Rules.Registry;

/// <summary>A rule as the shop has set it for a place.</summary>
/// <param name="Rule">The rule.</param>
/// <param name="Tuning">What is set; null where nothing is.</param>
public readonly record struct TunedRule(IRule Rule, RuleTuning? Tuning)
{
    /// <summary>Whether the rule looks at the place at all.</summary>
    public bool IsOn => Tuning is not { IsOn: false };

    /// <summary>The rule as the settings of a place have it.</summary>
    /// <param name="rule">The rule.</param>
    /// <param name="tunings">The settings, by the codes of the rules.</param>
    public static TunedRule Of(IRule rule, IReadOnlyDictionary<string, RuleTuning> tunings)
    {
        ArgumentNullException.ThrowIfNull(rule);
        ArgumentNullException.ThrowIfNull(tunings);
        return new(rule, tunings.GetValueOrDefault(rule.Code));
    }

    /// <summary>A number of the rule: as set, otherwise its default.</summary>
    /// <param name="name">Its name.</param>
    /// <exception cref="InvalidOperationException">The rule has no such number.</exception>
    public decimal Number(string name)
    {
        if (Tuning is { } tuning && tuning.Numbers.TryGetValue(name, out var set))
        {
            return set;
        }

        // Asked for some thirty times with every reading.
        for (var i = 0; i < Rule.Numbers.Count; i++)
        {
            if (Rule.Numbers[i].Name == name)
            {
                return Rule.Numbers[i].Default;
            }
        }

        throw new InvalidOperationException($"The rule {Rule.Code} has no number {name}.");
    }
}
