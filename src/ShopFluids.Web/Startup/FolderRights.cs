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

    /// <summary>Writes a file that only its owner may read, whole or not at all, in place of one that is there.</summary>
    public static void WriteSecret(string file, string text)
    {
        var fresh = file + ".new";
        File.Delete(fresh);
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }

        using (var stream = new FileStream(fresh, options))
        {
            stream.Write(System.Text.Encoding.UTF8.GetBytes(text));
            stream.Flush(flushToDisk: true);
        }

        File.Move(fresh, file, overwrite: true);
    }
}
