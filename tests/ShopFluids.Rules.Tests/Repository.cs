namespace ShopFluids.Rules.Tests;

/// <summary>Files of the repository that the tests are held against.</summary>
internal static class Repository
{
    public static string PathOf(params string[] parts)
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "ShopFluids.sln")))
        {
            folder = folder.Parent ?? throw new InvalidOperationException("The tests do not lie in the repository.");
        }

        return Path.Combine([folder.FullName, .. parts]);
    }
}
