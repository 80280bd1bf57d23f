namespace ShopFluids.EndToEnd.Tests.Server;

/// <summary>
/// The program that is tested: what the web project built in the same configuration as these tests, or another build or published
/// output that SHOPFLUIDS_TEST_PROGRAM names.
/// </summary>
internal static class ProgramFile
{
    public static string Location { get; } = Find();

    /// <summary>The repository, which the tests run in.</summary>
    public static DirectoryInfo Repository()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "ShopFluids.sln")))
        {
            folder = folder.Parent ?? throw new InvalidOperationException("The end-to-end tests run inside the repository.");
        }

        return folder;
    }

    private static string Find()
    {
        if (Environment.GetEnvironmentVariable("SHOPFLUIDS_TEST_PROGRAM") is { Length: > 0 } given)
        {
            return given;
        }

        // .../bin/Debug/net10.0/ of the tests; the same below the web project.
        var output = new DirectoryInfo(AppContext.BaseDirectory);
        var file = Path.Combine(Repository().FullName, "src", "ShopFluids.Web", "bin", output.Parent?.Name ?? "", output.Name, "shopfluids.dll");
        return File.Exists(file) ? file : throw new FileNotFoundException("The web project is not built.", file);
    }
}
