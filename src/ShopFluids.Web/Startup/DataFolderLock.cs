namespace ShopFluids.Web.Startup;

/// <summary>
/// Held by a server with the embedded engine as long as it runs, so that nobody restores under its feet. The operating system
/// lets go of it when the process ends, however it ends.
/// </summary>
internal sealed class DataFolderLock : IDisposable
{
    private const string FileName = "in-use.lock";

    // What the operating systems call a file that another process has locked; a full or read-only disk has other numbers.
    private const int HeldOnLinux = 11;
    private const int HeldOnMac = 35;
    private const int HeldOnWindows = unchecked((int)0x80070020);

    private readonly FileStream _file;

    private DataFolderLock(FileStream file) => _file = file;

    /// <returns>Null when another process holds it.</returns>
    /// <exception cref="IOException">The folder or its file cannot be made.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder or its file may not be written.</exception>
    public static DataFolderLock? TryTake(string folder)
    {
        FolderRights.Make(folder);
        try
        {
            return new DataFolderLock(new FileStream(Path.Combine(folder, FileName), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None));
        }
        catch (IOException held) when (held.HResult is HeldOnLinux or HeldOnMac or HeldOnWindows)
        {
            return null;
        }
    }

    public void Dispose() => _file.Dispose();
}
