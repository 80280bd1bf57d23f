namespace ShopFluids.Web.Startup;

internal static class Logs
{
    /// <summary>Our own news, and of the framework only what is wrong. Standard error, so that standard output carries only what verbs answer.</summary>
    public static void AddLogs(this WebApplicationBuilder builder)
    {
        builder.Logging.ClearProviders();
        builder.Logging.AddLogs();
    }

    public static void AddLogs(this ILoggingBuilder logging)
    {
        logging.SetMinimumLevel(LogLevel.Warning);
        logging.AddFilter("ShopFluids", LogLevel.Information);
        // "Now listening on" is what people look for.
        logging.AddFilter("Microsoft.Hosting.Lifetime", LogLevel.Information);
        // It warns that cookie keys lie unencrypted in the database; so they do, like everything else there.
        logging.AddFilter("Microsoft.AspNetCore.DataProtection", LogLevel.Error);
        logging.AddSimpleConsole(console =>
        {
            console.SingleLine = true;
            console.UseUtcTimestamp = true;
            console.TimestampFormat = "yyyy-MM-dd'T'HH:mm:ss'Z' ";
        });
        logging.Services.Configure<Microsoft.Extensions.Logging.Console.ConsoleLoggerOptions>(console => console.LogToStandardErrorThreshold = LogLevel.Trace);
    }
}
