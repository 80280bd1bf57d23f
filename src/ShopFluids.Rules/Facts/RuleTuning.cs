namespace ShopFluids.Rules.Facts;

/// <summary>How one rule is set for a sump: by its own setting, otherwise its fluid's, otherwise the shop's.</summary>
/// <param name="Rule">The rule's code.</param>
/// <param name="IsOn">Whether the rule looks at this sump at all.</param>
/// <param name="Numbers">The numbers that were set, by the names of <see cref="Registry.RuleNumber"/>; what is missing keeps the rule's default.</param>
public sealed record RuleTuning(string Rule, bool IsOn, IReadOnlyDictionary<string, decimal> Numbers);
