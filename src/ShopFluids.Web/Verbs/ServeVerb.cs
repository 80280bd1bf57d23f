using System.Globalization;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Settings;
using ShopFluids.Web.Startup;

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
        DataFolderLock? folder = null;
        try
        {
            if (settings.Engine == DatabaseEngine.Sqlite && (folder = DataFolderLock.TryTake(settings.DataFolder)) is null)
            {
                await call.Error.WriteLineAsync(Say(Texts.Start_FolderInUse, settings.DataFolder));
                return ExitCodes.Failed;
            }

            await using var app = ShopApp.Build(settings);
            return await ServeAsync(call, app, cancellationToken);
        }
        finally
        {
            folder?.Dispose();
        }
    }

    private static async Task<int> ServeAsync(VerbCall call, WebApplication app, CancellationToken cancellationToken)
    {
        if (await app.Services.GetRequiredService<DatabaseOpening>().OpenAsync(cancellationToken) is { } fault)
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
        catch (IOException inUse)
        {
            await call.Error.WriteLineAsync(Say(Texts.Start_CannotListen, string.Join(' ', call.Settings.Urls), inUse.Message));
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

    private static string Say(string pattern, params object?[] values) => string.Format(CultureInfo.InvariantCulture, pattern, values);
}
