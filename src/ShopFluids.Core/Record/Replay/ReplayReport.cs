namespace ShopFluids.Core.Record.Replay;

/// <param name="Readings">Readings that were judged again.</param>
/// <param name="OfTheClock">Flags of the clock, for late tests and standing machines, that were noticed again.</param>
public sealed record ReplayReport(int Readings, int OfTheClock, IReadOnlyList<ReplayDifference> Differences);

/// <summary>Something that the rules answer otherwise today.</summary>
/// <param name="ReadingId">The reading judged; null for a flag of the clock.</param>
/// <param name="Stored">What was answered then, in codes and numbers.</param>
/// <param name="Replayed">What is answered today from the same facts.</param>
/// <param name="IsSetupChanged">The set-up of the sump was changed since, so the facts are not quite the same.</param>
public sealed record ReplayDifference(string SumpTag, DateTime AtUtc, Guid? ReadingId, ReplayAspect Aspect, string Stored, string Replayed, bool IsSetupChanged);

public enum ReplayAspect
{
    Verdicts,
    FlagsRaised,
    FlagsCleared,
    Recipe,
    TasksMade,
    TasksDone,
    TasksWithdrawn,
    Cautions,
    NextTest,

    /// <summary>The flag for a late test.</summary>
    LateTest,

    /// <summary>The record does not say when the reading was stored, so it cannot be judged again.</summary>
    NotInRecord,
}
