namespace ShopFluids.Web.Startup;

internal static partial class StartupLog
{
    [LoggerMessage(EventId = 1001, Level = LogLevel.Information, Message = "Bringing the database up to date, {Count} steps.")]
    public static partial void Migrating(this ILogger logger, int count);

    [LoggerMessage(EventId = 1002, Level = LogLevel.Information, Message = "The database is at {Migration}.")]
    public static partial void Migrated(this ILogger logger, string migration);

    [LoggerMessage(EventId = 1003, Level = LogLevel.Information, Message = "The database was backed up and checked before the upgrade: {File}.")]
    public static partial void BackedUp(this ILogger logger, string file);
}
