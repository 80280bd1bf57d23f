using Microsoft.Extensions.Logging;

namespace ShopFluids.Core.Readings;

internal static partial class ReadingsLog
{
    [LoggerMessage(EventId = 1201, Level = LogLevel.Debug, Message = "Reading {ReadingId} stored for sump {SumpId}; {FlagCount} flags raised.")]
    public static partial void ReadingStored(this ILogger logger, Guid readingId, Guid sumpId, int flagCount);
}
