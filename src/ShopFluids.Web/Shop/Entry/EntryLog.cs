namespace ShopFluids.Web.Shop.Entry;

internal static partial class EntryLog
{
    [LoggerMessage(EventId = 1501, Level = LogLevel.Warning, Message = "Entry pages could not be drawn ahead this time.")]
    public static partial void EntryPagesFailed(this ILogger logger, Exception failure);

    [LoggerMessage(EventId = 1502, Level = LogLevel.Warning, Message = "The entry page of {Sump} could not be drawn ahead.")]
    public static partial void EntryPageFailed(this ILogger logger, string sump, Exception failure);

    [LoggerMessage(EventId = 1503, Level = LogLevel.Debug, Message = "No longer drawing entry pages ahead.")]
    public static partial void EntryPagesStopped(this ILogger logger);
}
