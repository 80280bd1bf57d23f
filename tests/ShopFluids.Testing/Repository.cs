namespace ShopFluids.Testing;

/// <summary>The sources on disk, for tests that read them.</summary>
public static class Repository
{
    public static string Root { get; } = Find();

    private static string Find()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "ShopFluids.sln")))
            {
                return folder.FullName;
            }
        }

        throw new InvalidOperationException($"{AppContext.BaseDirectory} is not inside the repository.");
    }
}
