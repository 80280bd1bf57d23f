using System.Globalization;
using System.Net.Sockets;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Settings;
using ShopFluids.Web.Startup;
using ShopFluids.Web.Startup.Sealing;

namespace ShopFluids.Web.Verbs;

/// <summary>Opens the database, says what a person must know, and serves until it is told to stop.</summary>
internal sealed class ServeVerb : Verb
{
    public override string Name => "serve";

    public override string Summary => Texts.Verb_ServeSummary;

    public override IReadOnlyList<string> Usage => ["serve", "serve --demo", "serve --urls http://0.0.0.0:5080"];

    public override string Details => Texts.Verb_ServeDetails;

    public override async Task<int> RunAsync(VerbCall call, CancellationToken cancellationToken)
    {
        call.ExpectArguments(0);
        var settings = call.Settings;
        if (settings.Engine != DatabaseEngine.Sqlite)
        {
            return await ServeAsync(call, cancellationToken);
        }

        var (folder, fault) = Take(settings.DataFolder);
        using (folder)
        {
            if (folder is not null)
            {
                return await ServeAsync(call, cancellationToken);
            }

            await call.Error.WriteLineAsync(fault);
            return ExitCodes.Failed;
        }
    }

    private static (DataFolderLock? Folder, string Fault) Take(string path)
    {
        try
        {
            return (DataFolderLock.TryTake(path), Say(Texts.Start_FolderInUse, path));
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            return (null, Say(Texts.Start_FolderUnusable, path, failure.Message));
        }
    }

    private static async Task<int> ServeAsync(VerbCall call, CancellationToken cancellationToken)
    {
        await using var app = ShopApp.Build(call.Settings);
        return await ServeAsync(call, app, cancellationToken);
    }

    private static async Task<int> ServeAsync(VerbCall call, WebApplication app, CancellationToken cancellationToken)
    {
        if (await app.Services.GetRequiredService<DatabaseOpening>().OpenAsync(RecordUse.Write, cancellationToken) is { } fault)
        {
            await call.Error.WriteLineAsync(fault);
            return ExitCodes.Failed;
        }

        await app.Services.GetRequiredService<ShipParametersHandler>().HandleAsync(cancellationToken);
        if (call.Settings.IsDemo && !await app.Services.GetRequiredService<DemoStart>().LoadAsync(call.Output, call.Error, cancellationToken))
        {
            return ExitCodes.Failed;
        }

        try
        {
            await app.StartAsync(cancellationToken);
        }
        catch (Exception failure) when (IsAboutListening(failure, call.Settings))
        {
            await call.Error.WriteLineAsync(Say(Texts.Start_CannotListen, string.Join(' ', call.Settings.Urls), failure.Message));
            return ExitCodes.Failed;
        }

        var firstRun = app.Services.GetRequiredService<FirstRun>();
        if (!await firstRun.IsOverAsync(cancellationToken))
        {
            await FirstRunNotice.PrintAsync(firstRun);
        }

        await app.WaitForShutdownAsync(cancellationToken);
        return ExitCodes.Done;
    }

    // In use; not allowed, or not an address of this machine; encrypted without a certificate.
    private static bool IsAboutListening(Exception failure, ShopSettings settings) =>
        failure is IOException or SocketException
        || (failure is InvalidOperationException && settings.Urls.Any(u => u.StartsWith("https:", StringComparison.OrdinalIgnoreCase)));

    private static string Say(string pattern, params object?[] values) => string.Format(CultureInfo.InvariantCulture, pattern, values);
}
