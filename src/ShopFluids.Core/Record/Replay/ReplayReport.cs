namespace ShopFluids.Core.Record.Replay;

/// <param name="Readings">Readings that were judged again.</param>
/// <param name="OfTheClock">Flags of the clock, for late tests and standing machines, that were noticed again.</param>
/// <param name="OfTheShop">Flags of lots, stocks and instruments that were looked for again.</param>
/// <param name="Escalated">Flags that went to the supervisor, judged again.</param>
public sealed record ReplayReport(int Readings, int OfTheClock, int OfTheShop, int Escalated, IReadOnlyList<ReplayDifference> Differences);

/// <summary>Something that the rules answer otherwise today.</summary>
/// <param name="Subject">The tag of the sump; of a flag of the shop the number of the lot, the name of the fluid or the tag of the instrument.</param>
/// <param name="ReadingId">The reading judged; null for what no reading led to.</param>
/// <param name="Stored">What was answered then, in codes and numbers.</param>
/// <param name="Replayed">What is answered today from the same facts.</param>
/// <param name="IsSetupChanged">The set-up of the sump was changed since, so the facts are not quite the same.</param>
public sealed record ReplayDifference(string Subject, DateTime AtUtc, Guid? ReadingId, ReplayAspect Aspect, string Stored, string Replayed, bool IsSetupChanged);

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

    /// <summary>A flag of a lot, a stock or an instrument that was raised.</summary>
    ShopFlagRaised,

    /// <summary>Such a flag that went away.</summary>
    ShopFlagGone,

    /// <summary>A flag that went to the supervisor because nobody had answered it.</summary>
    Escalation,

    /// <summary>The record does not say when the reading or the flag was stored, so it cannot be judged again.</summary>
    NotInRecord,
}
