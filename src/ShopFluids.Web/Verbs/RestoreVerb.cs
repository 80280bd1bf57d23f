using System.Globalization;
using Microsoft.Data.Sqlite;
using ShopFluids.Core.Wording;
using ShopFluids.Data.Sqlite;
using ShopFluids.Web.Settings;
using ShopFluids.Web.Startup;
using ShopFluids.Web.Startup.Sealing;

namespace ShopFluids.Web.Verbs;

/// <summary>Puts a checked backup in the place of the database; what was there is kept as a backup itself.</summary>
internal sealed class RestoreVerb : Verb
{
    private const string Force = "force";

    public override string Name => "restore";

    public override string Summary => Texts.Verb_RestoreSummary;

    public override IReadOnlyList<string> Usage => ["restore FILE", "restore FILE --force"];

    public override string Details => Texts.Verb_RestoreDetails;

    public override IReadOnlyList<VerbOption> Options => [new VerbOption(Force, IsFlag: true)];

    public override async Task<int> RunAsync(VerbCall call, CancellationToken cancellationToken)
    {
        call.ExpectArguments(1);
        var (code, message) = await RestoreAsync(call, cancellationToken);
        await (code == ExitCodes.Done ? call.Output : call.Error).WriteLineAsync(message);
        return code;
    }

    private static async Task<(int Code, string Message)> RestoreAsync(VerbCall call, CancellationToken cancellationToken)
    {
        if (call.Settings.Engine == DatabaseEngine.Postgres)
        {
            return (ExitCodes.Failed, Texts.Verb_RestorePostgres);
        }

        if (BackupVerb.SqliteSource(call.Settings) is not { } target)
        {
            return (ExitCodes.Failed, Texts.Verb_NoDatabase);
        }

        var file = Path.GetFullPath(call.Arguments[0], call.Surroundings.CurrentFolder);
        if (!File.Exists(file))
        {
            return (ExitCodes.Failed, Say(Texts.Verb_RestoreNoFile, file));
        }

        if (await SqliteFile.FindFaultAsync(file, cancellationToken) is { } fault)
        {
            return (ExitCodes.Failed, Say(Texts.Verb_RestoreUnsound, file, fault));
        }

        try
        {
            using var folder = DataFolderLock.TryTake(call.Settings.DataFolder);
            if (folder is null)
            {
                return (ExitCodes.Failed, Say(Texts.Start_FolderInUse, call.Settings.DataFolder));
            }

            if (File.Exists(target) && !call.Has(Force))
            {
                return (ExitCodes.Failed, Say(Texts.Verb_RestoreExists, target));
            }

            return (ExitCodes.Done, await PutInPlaceAsync(call.Settings, file, target, cancellationToken));
        }
        catch (Exception failure) when (failure is SqliteException or IOException or InvalidDataException or UnauthorizedAccessException)
        {
            return (ExitCodes.Failed, Say(Texts.Verb_RestoreFailed, failure.Message));
        }
    }

    private static async Task<string> PutInPlaceAsync(ShopSettings settings, string file, string target, CancellationToken cancellationToken)
    {
        var kept = "";
        var (key, now) = (new RecordKeyFile(settings), new SystemTime().GetUtcNow().UtcDateTime);
        if (File.Exists(target))
        {
            kept = BackupFiles.Make(settings, "before-restore", now);
            await SqliteFile.CopyAsync(target, kept, cancellationToken);
            key.CopyBeside(kept);
        }

        // One that cannot be read stops the restore before anything is moved.
        await FingerprintFiles.ReadAsync(settings, cancellationToken);

        // Whole or not at all: copied beside it, then moved into place. The old log belongs to the old file.
        var fresh = target + ".restoring";
        File.Delete(fresh);
        await SqliteFile.CopyAsync(file, fresh, cancellationToken);
        // A pooled connection of this process would go on with the old file.
        SqliteConnection.ClearAllPools();
        File.Delete(target + "-wal");
        File.Delete(target + "-shm");
        File.Move(fresh, target, overwrite: true);
        key.RestoreFrom(file, await SqliteFile.IsSealedAsync(target, cancellationToken), now);
        var done = kept.Length == 0 ? Say(Texts.Verb_RestoreDone, target) : Say(Texts.Verb_RestoreDoneKept, target, kept);
        var aside = await FingerprintFiles.SetAsideAsync(settings, target, cancellationToken);
        return aside == 0 ? done : $"{done} {Say(Texts.Verb_RestoreFingerprints, aside)}";
    }

    private static string Say(string pattern, params object?[] values) => string.Format(CultureInfo.InvariantCulture, pattern, values);
}
