namespace ShopFluids.Web.Startup;

internal static class FolderRights
{
    /// <summary>Makes a folder that only its owner may look into: it holds the database and its keys.</summary>
    public static void Make(string folder)
    {
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(folder);
        }
        else
        {
            Directory.CreateDirectory(folder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        }
    }
}
