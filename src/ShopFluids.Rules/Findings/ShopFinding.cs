namespace ShopFluids.Rules.Findings;

/// <summary>A finding about something of the shop that is no sump: a lot, a fluid in the stores, an instrument.</summary>
/// <param name="Rule">The rule's code.</param>
/// <param name="RuleVersion">The rule's version: raised when the same facts would give another finding.</param>
/// <param name="Aspect">What of the subject it is about, as a code of the rule.</param>
/// <param name="SubjectId">The lot, the fluid or the instrument.</param>
/// <param name="Numbers">The numbers it used, by <see cref="NumberNames"/>.</param>
/// <param name="DueAt">When the work that it asks for becomes late, UTC.</param>
public sealed record ShopFinding(
    string Rule,
    int RuleVersion,
    string Aspect,
    Guid SubjectId,
    Verdict Severity,
    IReadOnlyDictionary<string, decimal> Numbers,
    DateTime DueAt);

/// <summary>A finding that is known and has not gone away; answered or not.</summary>
/// <param name="RaisedAt">When it was raised, UTC.</param>
public sealed record KnownFinding(Guid Id, string Rule, string Aspect, Guid SubjectId, DateTime RaisedAt);

/// <summary>What is new among findings, and what went away.</summary>
/// <param name="New">To raise.</param>
/// <param name="Gone">Known ones that are found no more.</param>
public sealed record FindingChanges(IReadOnlyList<ShopFinding> New, IReadOnlyList<Guid> Gone)
{
    /// <summary>Whether nothing changed.</summary>
    public bool IsEmpty => New.Count == 0 && Gone.Count == 0;

    /// <summary>
    /// Compares what is found with what is known. What is known is not raised again, answered or not, until it went away; a clock that
    /// stepped back before it was raised makes nothing go away.
    /// </summary>
    /// <param name="found">What is found now.</param>
    /// <param name="known">What is known.</param>
    /// <param name="now">The moment of judging, UTC.</param>
    public static FindingChanges Of(IReadOnlyList<ShopFinding> found, IReadOnlyList<KnownFinding> known, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(found);
        ArgumentNullException.ThrowIfNull(known);
        var keys = known.Select(k => (k.Rule, k.Aspect, k.SubjectId)).ToHashSet();
        var there = found.Select(f => (f.Rule, f.Aspect, f.SubjectId)).ToHashSet();
        return new(
            [.. found.Where(f => !keys.Contains((f.Rule, f.Aspect, f.SubjectId))).DistinctBy(f => (f.Rule, f.Aspect, f.SubjectId))],
            [.. known.Where(k => k.RaisedAt <= now && !there.Contains((k.Rule, k.Aspect, k.SubjectId))).Select(k => k.Id)]);
    }
}
