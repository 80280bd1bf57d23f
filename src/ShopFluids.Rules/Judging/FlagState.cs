namespace ShopFluids.Rules.Judging;

/// <summary>A flag that is open after a reading that measured its parameter.</summary>
/// <param name="Rule">The rule's code.</param>
/// <param name="Parameter">The parameter's code.</param>
/// <param name="Severity">Warning or action.</param>
/// <param name="Direction">The side.</param>
/// <param name="IsNew">Raised by this reading.</param>
/// <param name="IsBeyond">This reading's value is beyond a limit, not just short of the margin to clear.</param>
public sealed record FlagState(string Rule, string Parameter, Verdict Severity, Direction Direction, bool IsNew, bool IsBeyond)
{
    /// <summary>Within what time its work is due, where its rule says so.</summary>
    public TimeSpan? Within { get; init; }
}
