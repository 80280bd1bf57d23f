using System.Globalization;
using Microsoft.Data.Sqlite;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Settings;
using ShopFluids.Web.Startup;

namespace ShopFluids.Web.Verbs;

/// <summary>Copies the running database, opens the copy and reads all of it.</summary>
internal sealed class BackupVerb : Verb
{
    public override string Name => "backup";

    public override string Summary => Texts.Verb_BackupSummary;

    public override IReadOnlyList<string> Usage => ["backup FILE"];

    public override string Details => Texts.Verb_BackupDetails;

    public override async Task<int> RunAsync(VerbCall call, CancellationToken cancellationToken)
    {
        call.ExpectArguments(1);
        if (call.Settings.Engine == DatabaseEngine.Postgres)
        {
            await call.Error.WriteLineAsync(Texts.Verb_BackupPostgres);
            return ExitCodes.Failed;
        }

        var file = Path.GetFullPath(call.Arguments[0], call.Surroundings.CurrentFolder);
        if (File.Exists(file))
        {
            await call.Error.WriteLineAsync(Say(Texts.Verb_BackupExists, file));
            return ExitCodes.Failed;
        }

        if (SqliteSource(call.Settings) is not { } source || !File.Exists(source))
        {
            await call.Error.WriteLineAsync(Texts.Verb_NoDatabase);
            return ExitCodes.Failed;
        }

        await using var services = VerbServices.Make(call.Settings);
        try
        {
            if (await services.GetRequiredService<DatabaseOpening>().BackUpAsync(file, cancellationToken) is { } fault)
            {
                await call.Error.WriteLineAsync(Say(Texts.Verb_BackupUnsound, file, fault));
                return ExitCodes.Failed;
            }
        }
        catch (SqliteException failure)
        {
            await call.Error.WriteLineAsync(Say(Texts.Verb_BackupFailed, file, failure.Message));
            return ExitCodes.Failed;
        }

        await call.Output.WriteLineAsync(Say(Texts.Verb_BackupDone, file, new FileInfo(file).Length));
        return ExitCodes.Done;
    }

    /// <summary>The file of the embedded database; null when it is in memory.</summary>
    internal static string? SqliteSource(ShopSettings settings) => Data.Sqlite.SqliteFile.PathOf(settings.ConnectionString);

    private static string Say(string pattern, params object?[] values) => string.Format(CultureInfo.InvariantCulture, pattern, values);
}
