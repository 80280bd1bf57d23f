namespace ShopFluids.Architecture.Tests;

/// <summary>The source tree, read as text.</summary>
internal static class Repository
{
    public static string Root { get; } = FindRoot();

    public static string PathOf(string relative) => Path.Combine(Root, relative);

    /// <summary>Source files of src without what is generated.</summary>
    public static IReadOnlyList<string> Sources(string pattern) => Under("src", pattern);

    /// <summary>Source files of the tests.</summary>
    public static IReadOnlyList<string> Tests(string pattern) => Under("tests", pattern);

    public static string Relative(string file) => Path.GetRelativePath(Root, file).Replace('\\', '/');

    private static List<string> Under(string folder, string pattern) =>
        [.. Directory.EnumerateFiles(PathOf(folder), pattern, SearchOption.AllDirectories).Where(f => !IsGenerated(f)).Order(StringComparer.Ordinal)];

    private static bool IsGenerated(string file) =>
        Relative(file) is var path && (path.Contains("/obj/", StringComparison.Ordinal) || path.Contains("/bin/", StringComparison.Ordinal) || path.Contains("/Migrations/", StringComparison.Ordinal));

    private static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "ShopFluids.sln")))
        {
            folder = folder.Parent ?? throw new InvalidOperationException("The tests run inside the repository.");
        }

        return folder.FullName;
    }
}
