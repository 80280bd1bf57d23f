using ShopFluids.Core.Record.Sealing;
using ShopFluids.Data.Sqlite;
using ShopFluids.Web.Settings;

namespace ShopFluids.Web.Startup.Sealing;

/// <summary>The fingerprints of the record that backups leave beside them, each in a small text file.</summary>
internal static class FingerprintFiles
{
    private const string Extension = ".fingerprint";

    public static async Task WriteBesideAsync(string backup, CancellationToken cancellationToken)
    {
        if (await SqliteFile.ReadHeadAsync(backup, cancellationToken) is { } head)
        {
            FolderRights.WriteSecret(backup + Extension, $"{head}{Environment.NewLine}");
        }
    }

    /// <summary>Those in the data folder and among its backups.</summary>
    /// <exception cref="InvalidDataException">A file holds no fingerprint; the message is its path.</exception>
    public static async Task<IReadOnlyList<RecordFingerprint>> ReadAsync(ShopSettings settings, CancellationToken cancellationToken)
    {
        var fingerprints = new List<RecordFingerprint>();
        foreach (var file in FilesOf(settings))
        {
            fingerprints.Add(await ReadAsync(file, cancellationToken));
        }

        return fingerprints;
    }

    /// <summary>After a restore: renames those that the record as it was then does not fit, such as of later backups.</summary>
    /// <returns>How many.</returns>
    public static async Task<int> SetAsideAsync(ShopSettings settings, string database, CancellationToken cancellationToken)
    {
        var count = 0;
        foreach (var file in FilesOf(settings))
        {
            var kept = await ReadAsync(file, cancellationToken);
            if (kept.Count > 0 && (await SqliteFile.ReadHashAsync(database, kept.Count, cancellationToken) is not { } hash || !kept.Fits(hash)))
            {
                File.Move(file, file + ".before-restore", overwrite: true);
                count++;
            }
        }

        return count;
    }

    private static List<string> FilesOf(ShopSettings settings) =>
    [
        .. new[] { settings.DataFolder, settings.BackupFolder }.Where(Directory.Exists).SelectMany(f => Directory.GetFiles(f, "*" + Extension)).Order(StringComparer.Ordinal),
    ];

    private static async Task<RecordFingerprint> ReadAsync(string file, CancellationToken cancellationToken) =>
        RecordFingerprint.TryParse(await File.ReadAllTextAsync(file, cancellationToken), out var fingerprint) ? fingerprint : throw new InvalidDataException(file);
}
