using System.Data.Common;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.People.Numbers;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
using ShopFluids.Data.Sqlite;
using ShopFluids.Web.Settings;
using ShopFluids.Web.Startup.Sealing;

namespace ShopFluids.Web.Startup;

/// <summary>
/// Brings the database up to the program's schema before anything is served: a checked backup first, then the migrations, then the key to the
/// record, or a clear stop.
/// </summary>
internal sealed class DatabaseOpening(
    IDbContextFactory<ShopFluidsDbContext> contexts, IDatabaseProvider provider, ShopSettings settings, RecordKeyOpening keys, RecordKeyFile keyFile, NumberPeopleHandler numbers,
    ShopClock clock, ILogger<DatabaseOpening> log)
{
    /// <summary>A migration takes seconds. What takes longer waits for a lock that nobody will let go of.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(2);

    /// <returns>Null when the database is ready; else why not, in words.</returns>
    public async Task<string?> OpenAsync(RecordUse use, CancellationToken cancellationToken)
    {
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancellationToken);
        limit.CancelAfter(Patience);
        try
        {
            FolderRights.Make(settings.DataFolder);
            if (await MigrateAsync(limit.Token) is { } fault || (fault = await keys.OpenAsync(use, limit.Token)) is not null)
            {
                return fault;
            }

            if (use == RecordUse.Write && await numbers.HandleAsync(limit.Token) is > 0 and var people)
            {
                log.PeopleNumbered(people);
            }

            return null;
        }
        catch (OperationCanceledException) when (!cancellationToken.IsCancellationRequested)
        {
            return settings.Engine == DatabaseEngine.Sqlite ? Texts.Start_MigrationLockedSqlite : Texts.Start_MigrationLockedPostgres;
        }
        catch (DbException failure)
        {
            return Say(Texts.Start_DatabaseFailed, failure.Message);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            return Say(Texts.Start_FolderUnusable, settings.DataFolder, failure.Message);
        }
    }

    /// <summary>Writes a backup and reads it again; the key to the record and its fingerprint go beside it.</summary>
    /// <returns>Null when the file is sound; else what is wrong with it.</returns>
    public async Task<string?> BackUpAsync(string file, CancellationToken cancellationToken)
    {
        await using var database = await contexts.CreateDbContextAsync(cancellationToken);
        await provider.BackupAsync(database, file, cancellationToken);
        if (await SqliteFile.FindFaultAsync(file, cancellationToken) is { } fault)
        {
            return fault;
        }

        keyFile.CopyBeside(file);
        await FingerprintFiles.WriteBesideAsync(file, cancellationToken);
        return null;
    }

    private async Task<string?> MigrateAsync(CancellationToken cancellationToken)
    {
        await using var database = await contexts.CreateDbContextAsync(cancellationToken);
        var isThere = await database.Database.CanConnectAsync(cancellationToken);
        if (!isThere && settings.Engine == DatabaseEngine.Postgres)
        {
            return Texts.Start_NoPostgres;
        }

        if (isThere)
        {
            await provider.PrepareHistoryAsync(database, cancellationToken);
        }

        var pending = (await database.Database.GetPendingMigrationsAsync(cancellationToken)).ToList();
        if (pending.Count == 0)
        {
            return null;
        }

        var isOld = isThere && (await database.Database.GetAppliedMigrationsAsync(cancellationToken)).Any();
        if (isOld && settings.Engine == DatabaseEngine.Sqlite && await KeepCopyAsync(cancellationToken) is { } fault)
        {
            return fault;
        }

        log.Migrating(pending.Count);
        await database.Database.MigrateAsync(cancellationToken);
        log.Migrated(pending[^1]);
        return null;
    }

    private async Task<string?> KeepCopyAsync(CancellationToken cancellationToken)
    {
        var file = BackupFiles.Make(settings, "before-upgrade", clock.UtcNow);
        if (await BackUpAsync(file, cancellationToken) is { } fault)
        {
            return Say(Texts.Start_BackupUnsound, file, fault);
        }

        log.BackedUp(file);
        return null;
    }

    private static string Say(string pattern, params object?[] values) => string.Format(CultureInfo.InvariantCulture, pattern, values);
}
