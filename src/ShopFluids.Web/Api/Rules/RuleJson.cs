using ShopFluids.Core.Tuning;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Api.Json;

namespace ShopFluids.Web.Api.Rules;

/// <summary>A rule as it holds for the whole shop, a fluid or a sump.</summary>
/// <param name="OnFrom">Whose switch it is: shipped, shop, fluid or sump.</param>
/// <param name="SetNumber">The version that is set at the very place that was asked for; 0 when nothing is. It is sent back with a change.</param>
internal sealed record RuleAnswer(string Code, int Version, string Name, string LooksAt, bool IsOn, string OnFrom, IReadOnlyList<RuleNumberAnswer> Numbers, int SetNumber)
{
    public static RuleAnswer Of(RuleInForce rule, int setNumber) => new(
        rule.Rule.Code,
        rule.Rule.Version,
        RuleSentences.Name(rule.Rule.Code),
        RuleSentences.LooksAt(rule.Rule.Code),
        rule.IsOn,
        Codes.Of(rule.OnFrom),
        [.. rule.Numbers.Select(n => new RuleNumberAnswer(
            n.Number.Name,
            n.Value,
            Codes.Of(n.From),
            RuleSentences.Unit(rule.Rule.Code, n.Number.Name),
            n.Number.Default,
            n.Number.Least,
            n.Number.Most,
            n.Number.IsWhole,
            RuleSentences.Number(rule.Rule.Code, n.Number.Name)))],
        setNumber);
}

/// <param name="From">Whose setting it is: shipped, shop, fluid or sump.</param>
/// <param name="Least">The smallest that is accepted.</param>
/// <param name="Most">The largest that is accepted.</param>
/// <param name="Whole">It counts something.</param>
internal sealed record RuleNumberAnswer(string Name, decimal Value, string From, string Unit, decimal Default, decimal Least, decimal Most, bool Whole, string Text);

/// <summary>A change of a rule. Described here for the documentation; read field by field, so that every fault is answered.</summary>
/// <param name="Id">Made by the sender, a UUID; sending it twice stores it once.</param>
/// <param name="Sump">The sump's tag; with neither sump nor fluid it is set for the whole shop.</param>
/// <param name="Fluid">The fluid's name.</param>
/// <param name="IsOn">Left out or null leaves the switch to the place above.</param>
/// <param name="Numbers">What is set here; a number that is not named is left to the place above.</param>
/// <param name="Reason">Why; kept with the change.</param>
/// <param name="SetNumber">As it was answered when the rule was read; 0 when nothing was set.</param>
internal sealed record RuleRequest(Guid Id, string? Sump, string? Fluid, bool? IsOn, IReadOnlyDictionary<string, decimal>? Numbers, string Reason, int? SetNumber);
