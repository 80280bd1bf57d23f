using ShopFluids.Core.Escalations;

namespace ShopFluids.Web.Escalations;

internal static partial class EscalationLog
{
    [LoggerMessage(EventId = 1301, Level = LogLevel.Information, Message = "Message {MessageId} went out by {Channel}, try {Tries}.")]
    public static partial void EscalationSent(this ILogger logger, Guid messageId, EscalationChannel channel, int tries);

    [LoggerMessage(EventId = 1302, Level = LogLevel.Warning, Message = "Message {MessageId} did not go out by {Channel}, try {Tries}: {Fault}. It is tried again.")]
    public static partial void EscalationFailed(this ILogger logger, Guid messageId, EscalationChannel channel, int tries, string fault);

    [LoggerMessage(EventId = 1303, Level = LogLevel.Error, Message = "Message {MessageId} was given up; it never went out by {Channel} in {Tries} tries: {Fault}.")]
    public static partial void EscalationGivenUp(this ILogger logger, Guid messageId, EscalationChannel channel, int tries, string fault);

    [LoggerMessage(EventId = 1304, Level = LogLevel.Warning, Message = "Waiting messages could not be sent this time.")]
    public static partial void EscalationTimerFailed(this ILogger logger, Exception failure);

    [LoggerMessage(EventId = 1305, Level = LogLevel.Debug, Message = "No longer sending messages.")]
    public static partial void EscalationTimerStopped(this ILogger logger);
}
