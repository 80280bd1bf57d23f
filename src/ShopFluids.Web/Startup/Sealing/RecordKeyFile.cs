using ShopFluids.Core.Record.Sealing;
using ShopFluids.Web.Settings;

namespace ShopFluids.Web.Startup.Sealing;

/// <summary>The file in the data folder that holds the key to the record, and its copies beside backups.</summary>
internal sealed class RecordKeyFile(ShopSettings settings)
{
    private const string Extension = ".key";

    public string Path { get; } = System.IO.Path.Combine(settings.DataFolder, "record" + Extension);

    /// <returns>Null when there is none.</returns>
    /// <exception cref="InvalidDataException">The file holds no key.</exception>
    public RecordKey? Read() =>
        !File.Exists(Path) ? null : RecordKey.TryParse(File.ReadAllText(Path), out var key) ? key : throw new InvalidDataException($"{Path} holds no key.");

    /// <summary>Writes a key; one that is there is kept among the backups.</summary>
    public void Write(RecordKey key, DateTime atUtc)
    {
        SetAside(atUtc);
        FolderRights.WriteSecret(Path, key.ToSecretText());
    }

    /// <summary>Copies the key beside a backup: a record without its key is not whole.</summary>
    public void CopyBeside(string backup)
    {
        if (File.Exists(Path))
        {
            FolderRights.WriteSecret(backup + Extension, File.ReadAllText(Path));
        }
    }

    /// <summary>Brings back the key that lies beside a backup. Without one, the key that is there stays for a sealed record and goes for one from before seals.</summary>
    public void RestoreFrom(string backup, bool isSealed, DateTime atUtc)
    {
        var copy = File.Exists(backup + Extension) ? File.ReadAllText(backup + Extension) : null;
        if (copy is null ? isSealed : File.Exists(Path) && File.ReadAllText(Path) == copy)
        {
            return;
        }

        SetAside(atUtc);
        if (copy is not null)
        {
            FolderRights.WriteSecret(Path, copy);
        }
    }

    // Among the backups: what it sealed can still be proved with it.
    private void SetAside(DateTime atUtc)
    {
        if (File.Exists(Path))
        {
            File.Move(Path, BackupFiles.Make(settings, "record", atUtc, Extension));
        }
    }
}
