namespace ShopFluids.Core.Record;

/// <summary>Who acts.</summary>
/// <param name="PersonId">Null for the program itself.</param>
/// <param name="Station">The shared tablet at which it is done; null elsewhere.</param>
public sealed record Actor(Guid? PersonId, string Name, ActorStation? Station = null)
{
    /// <summary>The program on its own account: its timer, its set-up at first start.</summary>
    public static Actor Program { get; } = new(null, "ShopFluids");
}

/// <summary>A shared tablet as it was called when something was done at it.</summary>
public sealed record ActorStation(Guid Id, string Name);

/// <summary>One thing that is done and recorded as a whole.</summary>
/// <param name="Code">One of <see cref="ActCodes"/>.</param>
/// <param name="Subject">The tag or name of what it is done to.</param>
public sealed record Act(string Code, Actor Actor, DateTime AtUtc, string Subject);

public static class ActCodes
{
    public const string ReadingStored = "reading.stored";
    public const string ReadingCorrected = "reading.corrected";
    public const string AdditionStored = "addition.stored";
    public const string RemovalStored = "removal.stored";
    public const string DoseNoted = "dose.noted";
    public const string DoseStruck = "dose.struck-out";
    public const string ChargeFilled = "charge.filled";
    public const string ChargeDrained = "charge.drained";
    public const string CleanOutNoted = "clean-out.noted";
    public const string CleanOutFinished = "clean-out.finished";
    public const string CleanOutBrokenOff = "clean-out.broken-off";
    public const string SlideStarted = "slide.started";
    public const string SlideRead = "slide.read";
    public const string SlideDiscarded = "slide.discarded";
    public const string StopSkipped = "stop.skipped";
    public const string TaskEnded = "task.ended";
    public const string TaskAssigned = "task.assigned";
    public const string TaskRedated = "task.redated";
    public const string WorkPlanned = "work.planned";
    public const string CareTemplateApplied = "care.template-applied";
    public const string ShutdownPlanned = "shutdown.planned";
    public const string ShutdownEnded = "shutdown.ended";
    public const string FlagClosed = "flag.closed";
    public const string OverdueNoticed = "overdue.noticed";
    public const string FlagEscalated = "flag.escalated";
    public const string ShopNoticed = "shop.noticed";
    public const string ShopFlagAnswered = "shop-flag.answered";
    public const string InstrumentChecked = "instrument.checked";
    public const string SetupChanged = "setup.changed";
    public const string RuleSet = "rule.set";
    public const string Rejudged = "readings.rejudged";
    public const string LotReceived = "lot.received";
    public const string LotQuarantined = "lot.quarantined";
    public const string LotReleased = "lot.released";
    public const string LotCounted = "lot.counted";
    public const string LotDiscarded = "lot.discarded";
    public const string AccountMade = "account.made";
    public const string AccountChanged = "account.changed";
    public const string PeopleNumbered = "people.numbered";
    public const string PersonRenamed = "person.renamed";
    public const string StationMade = "station.made";
    public const string StationEnrolled = "station.enrolled";
    public const string StationChanged = "station.changed";
    public const string StationRevoked = "station.revoked";
    public const string DisplayMade = "display.made";
    public const string DisplayChanged = "display.changed";
    public const string DisplayRevoked = "display.revoked";
    public const string RecordSealed = "record.sealed";
}
