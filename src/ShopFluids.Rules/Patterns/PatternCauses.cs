namespace ShopFluids.Rules.Patterns;

/// <summary>A cause with what is known about it. For, against and not known are counted apart.</summary>
/// <param name="Cause">Its code.</param>
/// <param name="Symptoms">The symptoms that are there and that it would explain.</param>
/// <param name="For">What speaks for it.</param>
/// <param name="Against">What speaks against it.</param>
/// <param name="NotKnown">What would speak for or against it once somebody finds it out.</param>
/// <param name="Rows">The rows of the table from which it comes.</param>
public sealed record RankedCause(
    string Cause,
    IReadOnlyList<string> Symptoms,
    IReadOnlyList<PatternCondition> For,
    IReadOnlyList<PatternCondition> Against,
    IReadOnlyList<PatternCondition> NotKnown,
    IReadOnlyList<PatternRow> Rows)
{
    /// <summary>Something speaks against it, and no more for it.</summary>
    public bool IsUnlikely => Against.Count > 0 && Against.Count >= For.Count;
}

/// <summary>What to find out next.</summary>
/// <param name="Subject">A subject of the table.</param>
/// <param name="TellsApart">It speaks differently of the causes that lead; otherwise it only makes surer.</param>
public sealed record NextCheck(string Subject, bool TellsApart);

/// <summary>The causes that the table gives for what is known.</summary>
/// <param name="Facts">What is known.</param>
/// <param name="Symptoms">What is there.</param>
/// <param name="Causes">Best supported first; what something speaks against comes after all that nothing speaks against.</param>
/// <param name="Next">What to find out next, the most telling first; at most <see cref="MostChecks"/>.</param>
public sealed record PatternCauses(PatternFacts Facts, IReadOnlyList<string> Symptoms, IReadOnlyList<RankedCause> Causes, IReadOnlyList<NextCheck> Next)
{
    /// <summary>How many causes lead.</summary>
    public const int Leaders = 3;

    /// <summary>How many checks are named.</summary>
    public const int MostChecks = 3;

    /// <summary>The causes that are shown in short: the first that are not unlikely.</summary>
    public IEnumerable<RankedCause> Leading => Causes.Where(c => !c.IsUnlikely).Take(Leaders);

    /// <summary>Seeks causes.</summary>
    /// <param name="facts">What is known.</param>
    /// <param name="table">The table.</param>
    public static PatternCauses Of(PatternFacts facts, PatternTable table)
    {
        ArgumentNullException.ThrowIfNull(facts);
        ArgumentNullException.ThrowIfNull(table);
        List<string> symptoms = [.. table.Symptoms.Where(s => PatternEvidence.IsThere(s, facts)).Select(s => s.Code)];
        if (symptoms.Count == 0)
        {
            return new(facts, [], [], []);
        }

        List<RankedCause> causes =
        [
            .. table.Rows.Where(r => symptoms.Contains(r.Symptom, StringComparer.Ordinal))
                .GroupBy(r => r.Cause, StringComparer.Ordinal)
                .Select(g => CauseOf(g.Key, [.. g], facts))
                .OrderBy(c => c.Against.Count > 0)
                .ThenByDescending(c => c.For.Count - c.Against.Count)
                .ThenByDescending(c => c.For.Count)
                .ThenBy(c => c.NotKnown.Count),
        ];
        var found = new PatternCauses(facts, symptoms, causes, []);
        return found with { Next = NextOf([.. found.Leading]) };
    }

    private static RankedCause CauseOf(string cause, List<PatternRow> rows, PatternFacts facts)
    {
        var evidence = rows.SelectMany(r => r.Evidence).Distinct().ToLookup(c => PatternEvidence.Judge(c, facts));
        return new(
            cause,
            [.. rows.Select(r => r.Symptom).Distinct(StringComparer.Ordinal)],
            [.. evidence[Support.For]],
            [.. evidence[Support.Against]],
            [.. evidence[Support.Unknown].Where(c => c.Comparison != Comparison.IsOpen)],
            rows);
    }

    // The conditions on one subject say the same of every leader where each has the same: that makes surer, and tells nothing apart.
    private static List<NextCheck> NextOf(List<RankedCause> leaders) =>
    [
        .. leaders.SelectMany(c => c.NotKnown).Select(c => c.Subject).Where(PatternSubjects.CanBeFoundOut).Distinct(StringComparer.Ordinal)
            .Select((subject, order) => (subject, order, TellsApart: leaders.Select(c => Asks(c, subject)).Distinct(StringComparer.Ordinal).Count() > 1, Asking: leaders.Count(c => Asks(c, subject).Length > 0)))
            .OrderByDescending(s => s.TellsApart)
            .ThenByDescending(s => s.Asking)
            .ThenBy(s => s.order)
            .Take(MostChecks)
            .Select(s => new NextCheck(s.subject, s.TellsApart)),
    ];

    private static string Asks(RankedCause cause, string subject) =>
        string.Join(';', cause.NotKnown.Where(c => c.Subject == subject).Select(c => c.ToString()).Order(StringComparer.Ordinal));
}
