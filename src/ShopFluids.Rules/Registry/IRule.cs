using ShopFluids.Rules.Findings;

namespace ShopFluids.Rules.Registry;

/// <summary>
/// A rule that looks at more than one value against its limit: at the charge so far, at several parameters together, at what was put in
/// and taken out. A new rule is one folder with its class, and one line in <see cref="RuleRegistry"/>. It has no state: the same case
/// gives the same opinions.
/// </summary>
public interface IRule
{
    /// <summary>The rule's code, at most 40 characters; its flags carry it, and docs/rules has a page of this name.</summary>
    string Code { get; }

    /// <summary>Raised when the same facts would give another finding.</summary>
    int Version { get; }

    /// <summary>What a shop may tune.</summary>
    IReadOnlyList<RuleNumber> Numbers { get; }

    /// <summary>
    /// What the rule makes of a reading: an opinion for each parameter (empty for the sump as a whole) on which this reading lets it have
    /// one. An open flag without an opinion stays as it is.
    /// </summary>
    /// <param name="reading">The case.</param>
    IEnumerable<RuleOpinion> Check(RuleCase reading);

    /// <summary>The kinds of work that answer a flag of this rule.</summary>
    /// <param name="flag">The flag.</param>
    /// <param name="isConfirmed">It was open before, and the reading found the same again.</param>
    IReadOnlyList<TaskKind> WorkFor(FlagKey flag, bool isConfirmed);

    /// <summary>Whether a test that the rule asks for is a second look at the same thing, by another person or method.</summary>
    bool AsksForASecondLook => true;

    /// <summary>Within what time the work for a flag is due; null for what <see cref="Advice.CorrectiveDue"/> says of its severity.</summary>
    /// <param name="flag">The flag, with the numbers of the reading that is judged.</param>
    TimeSpan? WorkWithin(RaisedFlag flag) => null;
}

/// <summary>A number of a rule that a shop may set.</summary>
/// <param name="Name">Its name, the same for every sump.</param>
/// <param name="Default">What holds where nothing was set.</param>
/// <param name="Least">The smallest that may be set.</param>
/// <param name="Most">The largest that may be set.</param>
public sealed record RuleNumber(string Name, decimal Default, decimal Least, decimal Most)
{
    /// <summary>It counts something: no decimals.</summary>
    public bool IsWhole { get; init; }
}

/// <summary>What a rule makes of a reading.</summary>
/// <param name="Parameter">What it is about; empty for the sump as a whole.</param>
/// <param name="Flag">The finding; null when there is none (any more), which ends an open flag.</param>
public sealed record RuleOpinion(string Parameter, RaisedFlag? Flag)
{
    /// <summary>Whether it is another finding than the one behind the open flag, although of its severity and side: it takes that one's place.</summary>
    public bool IsAnother { get; init; }

    /// <summary>Nothing (any more).</summary>
    public static RuleOpinion None(string parameter) => new(parameter, null);

    /// <summary>A finding.</summary>
    public static RuleOpinion Of(RaisedFlag flag) => new((flag ?? throw new ArgumentNullException(nameof(flag))).Parameter, flag);
}

/// <summary>What tells flags of one rule apart.</summary>
/// <param name="Parameter">The parameter's code; empty for the sump as a whole.</param>
/// <param name="Severity">Warning or action.</param>
/// <param name="Direction">The side.</param>
public readonly record struct FlagKey(string Parameter, Verdict Severity, Direction Direction);
