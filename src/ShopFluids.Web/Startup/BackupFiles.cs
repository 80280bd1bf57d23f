using System.Globalization;
using ShopFluids.Web.Settings;

namespace ShopFluids.Web.Startup;

internal static class BackupFiles
{
    /// <summary>Makes the backup folder and names a file in it: what for, and when.</summary>
    public static string Make(ShopSettings settings, string reason, DateTime atUtc, string extension = ".db")
    {
        FolderRights.Make(settings.BackupFolder);
        return Path.Combine(settings.BackupFolder, $"{reason}-{atUtc.ToString("yyyyMMdd'T'HHmmssfff'Z'", CultureInfo.InvariantCulture)}{extension}");
    }
}
