namespace ShopFluids.Web.Pages.Sheets.Jobs;

internal static partial class SheetJobLog
{
    [LoggerMessage(EventId = 1401, Level = LogLevel.Error, Message = "The file of sheets {JobId} could not be made.")]
    public static partial void SheetFailed(this ILogger logger, Exception failure, Guid jobId);

    [LoggerMessage(EventId = 1402, Level = LogLevel.Debug, Message = "No longer making files of sheets.")]
    public static partial void SheetWorkerStopped(this ILogger logger);
}
