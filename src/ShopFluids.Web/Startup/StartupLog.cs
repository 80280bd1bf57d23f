namespace ShopFluids.Web.Startup;

internal static partial class StartupLog
{
    [LoggerMessage(EventId = 1001, Level = LogLevel.Information, Message = "Bringing the database up to date, {Count} steps.")]
    public static partial void Migrating(this ILogger logger, int count);

    [LoggerMessage(EventId = 1002, Level = LogLevel.Information, Message = "The database is at {Migration}.")]
    public static partial void Migrated(this ILogger logger, string migration);

    [LoggerMessage(EventId = 1003, Level = LogLevel.Information, Message = "The database was backed up and checked before the upgrade: {File}.")]
    public static partial void BackedUp(this ILogger logger, string file);

    [LoggerMessage(EventId = 1004, Level = LogLevel.Information, Message = "{Count} tests are overdue that were not before.")]
    public static partial void OverdueNoticed(this ILogger logger, int count);

    [LoggerMessage(EventId = 1005, Level = LogLevel.Warning, Message = "Overdue tests could not be noticed this time.")]
    public static partial void OverdueFailed(this ILogger logger, Exception failure);

    [LoggerMessage(EventId = 1006, Level = LogLevel.Debug, Message = "No longer looking for overdue tests.")]
    public static partial void OverdueTimerStopped(this ILogger logger);

    [LoggerMessage(EventId = 1007, Level = LogLevel.Information, Message = "{Count} sumps had lost planned work and have it again.")]
    public static partial void WorkPlanned(this ILogger logger, int count);

    [LoggerMessage(EventId = 1008, Level = LogLevel.Warning, Message = "Work could not be planned this time.")]
    public static partial void PlanningFailed(this ILogger logger, Exception failure);

    [LoggerMessage(EventId = 1009, Level = LogLevel.Debug, Message = "No longer planning work.")]
    public static partial void CareTimerStopped(this ILogger logger);

    [LoggerMessage(EventId = 1010, Level = LogLevel.Information, Message = "{Count} lots, stocks or instruments need somebody that did not before.")]
    public static partial void ShopFlagsNoticed(this ILogger logger, int count);

    [LoggerMessage(EventId = 1011, Level = LogLevel.Information, Message = "{Count} flags that nobody answered are with the supervisor now.")]
    public static partial void FlagsEscalated(this ILogger logger, int count);

    [LoggerMessage(EventId = 1012, Level = LogLevel.Information, Message = "The record is sealed from now on, with the key {KeyId}. Keep the key with the backups: without it nobody can prove the record.")]
    public static partial void RecordSealed(this ILogger logger, string keyId);

    [LoggerMessage(EventId = 1013, Level = LogLevel.Information, Message = "{Count} people have numbers now: the record names them by these from now on.")]
    public static partial void PeopleNumbered(this ILogger logger, int count);
}
