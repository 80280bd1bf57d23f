using ShopFluids.Web.Settings;
using ShopFluids.Web.Startup;
using ShopFluids.Web.Startup.Sealing;

namespace ShopFluids.Web.Verbs;

/// <summary>What verbs need of the program, without a server.</summary>
internal static class VerbServices
{
    public static ServiceProvider Make(ShopSettings settings)
    {
        var services = new ServiceCollection();
        services.AddLogging(logging => logging.AddLogs());
        services.AddShopFluidsData(settings);
        services.AddShopFeatures();
        return services.BuildServiceProvider();
    }

    /// <summary>The services over a database that has this program's schema and a record that fits its key; null, with the reason written, when it has not.</summary>
    public static Task<ServiceProvider?> OpenAsync(VerbCall call, CancellationToken cancellationToken) => OpenAsync(call, RecordUse.Write, cancellationToken);

    /// <summary>The same for a verb that does not only add to the record.</summary>
    public static async Task<ServiceProvider?> OpenAsync(VerbCall call, RecordUse use, CancellationToken cancellationToken)
    {
        var services = Make(call.Settings);
        if (await services.GetRequiredService<DatabaseOpening>().OpenAsync(use, cancellationToken) is not { } fault)
        {
            return services;
        }

        await call.Error.WriteLineAsync(fault);
        await services.DisposeAsync();
        return null;
    }
}
