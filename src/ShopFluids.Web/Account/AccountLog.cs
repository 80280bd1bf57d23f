namespace ShopFluids.Web.Account;

internal static partial class AccountLog
{
    [LoggerMessage(EventId = 1101, Level = LogLevel.Information, Message = "{PersonId} signed in.")]
    public static partial void SignedIn(this ILogger logger, Guid personId);

    [LoggerMessage(EventId = 1102, Level = LogLevel.Warning, Message = "A sign-in was refused.")]
    public static partial void SignInRefused(this ILogger logger);

    [LoggerMessage(EventId = 1103, Level = LogLevel.Information, Message = "The shop was opened by {PersonId}.")]
    public static partial void ShopOpened(this ILogger logger, Guid personId);

    [LoggerMessage(EventId = 1104, Level = LogLevel.Warning, Message = "A wrong first-run code was typed.")]
    public static partial void FirstRunCodeRefused(this ILogger logger);

    [LoggerMessage(EventId = 1105, Level = LogLevel.Information, Message = "{PersonId} signed in at station {StationId}.")]
    public static partial void SignedInAtStation(this ILogger logger, Guid personId, Guid stationId);

    [LoggerMessage(EventId = 1106, Level = LogLevel.Warning, Message = "A PIN was refused at station {StationId}.")]
    public static partial void PinRefused(this ILogger logger, Guid stationId);
}
