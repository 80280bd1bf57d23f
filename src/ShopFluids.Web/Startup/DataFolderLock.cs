namespace ShopFluids.Web.Startup;

/// <summary>
/// Held by a server with the embedded engine as long as it runs, so that nobody restores under its feet. The operating system
/// lets go of it when the process ends, however it ends.
/// </summary>
internal sealed class DataFolderLock : IDisposable
{
    private const string FileName = "in-use.lock";
    private readonly FileStream _file;

    private DataFolderLock(FileStream file) => _file = file;

    /// <returns>Null when another process holds it.</returns>
    public static DataFolderLock? TryTake(string folder)
    {
        FolderRights.Make(folder);
        try
        {
            return new DataFolderLock(new FileStream(Path.Combine(folder, FileName), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None));
        }
        catch (IOException)
        {
            return null;
        }
    }

    public void Dispose() => _file.Dispose();
}
