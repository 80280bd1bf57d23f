namespace ShopFluids.Rules.Facts;

/// <summary>What is known of a sump before a reading.</summary>
/// <param name="FilledAt">When the charge was filled, UTC.</param>
/// <param name="FirstFillPh">The pH from which the fall is reckoned: the charge's first pH; null before it.</param>
/// <param name="Latest">The latest value of each parameter, by code.</param>
/// <param name="OpenFlags">Flags still open.</param>
/// <param name="OpenTasks">Tasks still open.</param>
/// <param name="LastMovedAt">When fluid was last put into the charge or taken out of it, UTC; the fill counts. Null where nothing is known of it.</param>
public sealed record StandingFacts(
    DateTime FilledAt,
    decimal? FirstFillPh,
    IReadOnlyDictionary<string, LatestValue> Latest,
    IReadOnlyList<OpenFlag> OpenFlags,
    IReadOnlyList<OpenTask> OpenTasks,
    DateTime? LastMovedAt = null)
{
    /// <summary>The open flag of a rule on a parameter; null where there is none. At most one is open for each rule and parameter.</summary>
    /// <param name="rule">The rule's code.</param>
    /// <param name="parameter">The parameter's code; empty for the sump as a whole.</param>
    public OpenFlag? OpenFlag(string rule, string parameter)
    {
        foreach (var flag in OpenFlags)
        {
            if (flag.Rule == rule && flag.Parameter == parameter)
            {
                return flag;
            }
        }

        return null;
    }
}

/// <summary>The latest value of one parameter.</summary>
public sealed record LatestValue(decimal Value, decimal Uncertainty, DateTime TakenAt, Verdict Verdict, Direction Direction);

/// <summary>A flag that is open.</summary>
/// <param name="Numbers">The numbers it was raised with, as in <see cref="Findings.RaisedFlag"/>.</param>
public sealed record OpenFlag(Guid Id, string Rule, string Parameter, Verdict Severity, Direction Direction, IReadOnlyDictionary<string, decimal> Numbers);

/// <summary>A task that is open. At most one is open for each kind and cause.</summary>
/// <param name="Cause">Why it exists: <c>step:{id}</c> of a care plan or <c>{rule}:{parameter}</c> of a flag.</param>
public sealed record OpenTask(Guid Id, TaskKind Kind, string Cause, DateTime DueAt)
{
    /// <summary>Somebody gave it this day, for a reason: it is not brought forward.</summary>
    public bool IsDayChosen { get; init; }
}
